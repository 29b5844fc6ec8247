"""Published worked examples, as they are printed; each names its source."""

from __future__ import annotations

from typing import NamedTuple


class Example(NamedTuple):
    """`givens` "name=25.0 cm3; …", `work` "name [unit] = expression; …", `printed` "0.176"."""

    source: str
    givens: str
    work: str
    printed: str


CHEMISTRY = "OpenStax Chemistry 2e "
PHYSICS = "OpenStax Physics (high school) "
COLLEGE = "OpenStax College Physics 2e "

EXAMPLES = (
    # ------------------------------------------------------------ yields and reacting masses
    Example(
        CHEMISTRY + "example 4.13, theoretical yield of copper",
        "mass=1.274 g",
        'copper [g] = mass / M("CuSO4") * M("Cu")',
        "0.5072",
    ),
    Example(
        CHEMISTRY + "example 4.13, check your learning",
        "start=32.9 g; product=12.5 g; M_start=153.82 g/mol; M_product=120.91 g/mol",
        "theory [g] = start / M_start * M_product; share [%] = percent_of(product, theory)",
        "48.3",
    ),
    Example(
        CHEMISTRY + "section 4.4, exercise on 25 g of 81 g",
        "got=25 g; theory=81 g",
        "share [%] = 100 * got / theory",
        "31",
    ),
    Example(
        CHEMISTRY + "section 4.4, exercise on benzoic acid from toluene",
        "toluene=1.000 kg; acid=1.21 kg",
        'theory [kg] = toluene / M("C7H8") * M("C7H6O2"); share [%] = 100 * acid / theory',
        "91.3",
    ),
    Example(
        CHEMISTRY + "example 4.12, amount of silicon",
        "mass=2.00 g",
        'n [mol] = mass / M("Si")',
        "0.0712",
    ),
    Example(
        CHEMISTRY + "example 4.12, amount of nitrogen",
        "mass=1.50 g",
        'n [mol] = mass / M("N2")',
        "0.0535",
    ),
    Example(
        CHEMISTRY + "example 4.10",
        "mass=16 g",
        'n [mol] = mass / M("Mg(OH)2"); needed [g] = 2 * n * M("NaOH")',
        "22",
    ),
    Example(
        CHEMISTRY + "example 4.10, check your learning",
        "mass=29.0 g",
        'n [mol] = mass / M("Ga"); oxide [g] = n / 2 * M("Ga2O3")',
        "39.0",
    ),
    Example(
        CHEMISTRY + "example 4.11, check your learning",
        "mass=25.13 g",
        'n [mol] = mass / M("Fe2O3"); gas [g] = 3 * n * M("CO")',
        "13.22",
    ),
    # ------------------------------------------------------------ amounts and formulae
    Example(
        CHEMISTRY + "example 3.3",
        "mass=4.7 g; A_r=39.10 g/mol",
        "n [mol] = mass / A_r",
        "0.12",
    ),
    Example(
        CHEMISTRY + "example 3.6",
        "mass=28.35 g; M_r=75.07 g/mol",
        "n [mol] = mass / M_r",
        "0.3776",
    ),
    Example(
        CHEMISTRY + "example 3.3, check your learning",
        "mass=3.24 g",
        'n [mol] = mass / M("Be")',
        "0.360",
    ),
    Example(
        CHEMISTRY + "example 3.11",
        "iron=34.97 g; oxygen=15.03 g",
        'ratio [] = (oxygen / M("O")) / (iron / M("Fe"))',
        "1.500",
    ),
    Example(
        CHEMISTRY + "example 3.11, check your learning",
        "nitrogen=0.130 g; oxygen=0.370 g",
        'ratio [] = (oxygen / M("O")) / (nitrogen / M("N"))',
        "2.5",
    ),
    Example(
        CHEMISTRY + "example 3.10, check your learning",
        "",
        'iron [%] = 100 * 2 * M("Fe") / M("Fe2O3")',
        "69.9",
    ),
    Example(
        CHEMISTRY + "example 3.9",
        "sample=12.04 g; carbon=7.34 g",
        "share [%] = percent_of(carbon, sample)",
        "61.0",
    ),
    Example(
        CHEMISTRY + "section 18.6, exercise on washing soda (decahydrate named in section 2.7)",
        "hydrate=4.640 g; salt=1.720 g",
        'water [mol] = (hydrate - salt) / M("H2O"); x [] = water / (salt / M("Na2CO3"))',
        "10",
    ),
    Example(
        CHEMISTRY + "example 4.15",
        "sample=0.4550 g; solid=0.6168 g",
        'salt [g] = sig(solid / M("BaSO4") * M("MgSO4"), 4); share [%] = 100 * salt / sample',
        "69.91",
    ),
    Example(
        CHEMISTRY + "example 4.15, check your learning",
        "sample=1.1324 g; solid=1.0881 g",
        'chlorine [g] = sig(solid / M("AgCl") * M("Cl"), 4); share [%] = 100 * chlorine / sample',
        "23.76",
    ),
    # ------------------------------------------------------------ solutions and titration
    Example(
        CHEMISTRY + "example 3.16",
        "mass=25.2 g; volume=0.500 dm3",
        'conc [mol/dm3] = mass / M("CH3COOH") / volume',
        "0.839",
    ),
    Example(
        CHEMISTRY + "example 3.17",
        "conc=5.30 mol/dm3; volume=0.250 dm3",
        'mass [g] = conc * volume * M("NaCl")',
        "77.4",
    ),
    Example(
        CHEMISTRY + "example 3.17, check your learning",
        "conc=0.200 mol/dm3; volume=250.0 cm3",
        'mass [g] = conc * (volume in dm3) * M("CaCl2")',
        "5.55",
    ),
    Example(
        CHEMISTRY + "example 3.21",
        "stock=1.59 mol/dm3; conc=0.100 mol/dm3; volume=5.00 dm3",
        "needed [dm3] = conc * volume / stock",
        "0.314",
    ),
    Example(
        CHEMISTRY + "example 3.19, check your learning",
        "conc=2.04 mol/dm3; before=25.0 cm3; after=500.0 cm3",
        "diluted [mol/dm3] = conc * before / after",
        "0.102",
    ),
    Example(
        CHEMISTRY + "example 4.14",
        "alkali=35.23 cm3; conc=0.250 mol/dm3; acid=50.00 cm3",
        "n [mol] = conc * (alkali in dm3); c_acid [mol/dm3] = n / (acid in dm3)",
        "0.176",
    ),
    Example(
        CHEMISTRY + "section 4.5, exercise on sulfuric acid in rain",
        "alkali=1.7 cm3; conc=0.0811 mol/dm3; acid=20.0 cm3",
        "c_acid [mol/dm3] = conc * alkali / acid / 2",
        "0.0034",
    ),
    Example(
        CHEMISTRY + "section 4.5, exercise on limewater",
        "acid=36.6 ml; conc=0.0500 mol/dm3; alkali=75.00 ml",
        "c_alkali [mol/dm3] = conc * acid / alkali / 2",
        "0.0122",
    ),
    Example(
        CHEMISTRY + "example 4.14, check your learning",
        "titre=23.24 cm3; conc=0.09113 mol/dm3; acid=20.00 cm3",
        "n [mol] = sig(conc * (titre in dm3), 4); c_acid [mol/dm3] = n * 5 / 2 / (acid in dm3)",
        "0.2648",
    ),
    Example(
        CHEMISTRY + "example 14.4",
        "conc=1.2e-3 mol/dm3",
        "pH [] = -log10(conc / (1 in mol/dm3))",
        "2.92",
    ),
    # ------------------------------------------------------------ rates
    Example(
        CHEMISTRY + "section 12.1, mean rate between 18 h and 24 h",
        "t1=18.00 h; c1=0.125 mol/dm3; t2=24.00 h; c2=0.0625 mol/dm3",
        "rate [mol/(dm3 h)] = -gradient(t1, c1, t2, c2)",
        "0.010",
    ),
    Example(
        CHEMISTRY + "example 12.2",
        "loss=3.20e-2 mol/(dm3 h)",
        "rate [mol/(dm3 h)] = loss / 2",
        "0.0160",
    ),
    # ------------------------------------------------------------ energy changes
    Example(
        CHEMISTRY + "example 5.1",
        "mass=800 g; t1=21 °C; t2=85 °C; c=4.184 J/(g °C)",
        "energy [J] = mass * c * (t2 - t1)",
        "2.1e5",
    ),
    Example(
        CHEMISTRY + "example 5.2",
        "mass=348 g; energy=6640 J; t1=22.4 °C; t2=43.6 °C",
        "c [J/(g °C)] = energy / (mass * (t2 - t1))",
        "0.900",
    ),
    Example(
        CHEMISTRY + "example 5.2, check your learning",
        "mass=217 g; energy=1.43 kJ; t1=24.5 °C; t2=39.1 °C",
        "c [J/(g °C)] = (energy in J) / (mass * (t2 - t1))",
        "0.451",
    ),
    Example(
        CHEMISTRY + "example 5.4",
        "metal=59.7 g; hot=100.0 °C; water=60.0 g; t1=22.0 °C; t2=28.5 °C; c=4.184 J/(g °C)",
        "gained [J] = water * c * (t2 - t1); c_metal [J/(g °C)] = gained / (metal * (hot - t2))",
        "0.38",
    ),
    Example(
        CHEMISTRY + "example 5.8",
        "energy=2.9 kJ; n=0.0500 mol",
        "change [kJ/mol] = -energy / n",
        "-58",
    ),
    Example(
        CHEMISTRY + "example 5.5, check your learning (its 1.34e3 kJ stands for 1.34e3 J)",
        "mass=200 g; t1=21.9 °C; t2=23.5 °C; c=4.184 J/(g °C)",
        "energy [kJ] = mass * c * (t2 - t1) in kJ",
        "1.34",
    ),
    Example(
        CHEMISTRY + "example 5.6",
        "salt=3.21 g; water=50.0 g; t1=24.9 °C; t2=20.3 °C; c=4.184 J/(g °C)",
        "energy [kJ] = (salt + water) * c * (t1 - t2) in kJ",
        "1.0",
    ),
    Example(
        CHEMISTRY + "example 5.6, check your learning",
        "salt=3.00 g; water=300 g; fall=1.05 °C; c=4.184 J/(g °C)",
        "energy [kJ] = (salt + water) * c * fall in kJ",
        "1.33",
    ),
    # ------------------------------------------------------------ cells, density, figures
    Example(
        CHEMISTRY + "example 17.4",
        "cathode=0.7996 V; anode=0.34 V",
        "emf [V] = cathode - anode",
        "0.46",
    ),
    Example(
        CHEMISTRY + "example 1.6, check your learning",
        "mass=31.1415 g; volume=30.13 cm3",
        "density [g/cm3] = mass / volume",
        "1.034",
    ),
    Example(
        COLLEGE + "example 11.10",
        "in_air=8.630 g; in_water=7.800 g; water=1.000 g/cm3",
        "volume [cm3] = (in_air - in_water) / water; density [g/cm3] = in_air / volume",
        "10.4",
    ),
    Example(
        CHEMISTRY + "example 1.5",
        "mass=421.23 g; volume=486 cm3",
        "density [g/cm3] = sig(mass / volume, 3)",
        "0.867",
    ),
    Example(CHEMISTRY + "example 1.4, sum", "a=1.0023 g; b=4.383 g", "all [g] = a + b", "5.385"),
    Example(CHEMISTRY + "example 1.4, difference", "a=486 g; b=421.23 g", "d [g] = a - b", "65"),
    Example(
        PHYSICS + "section 1.3, percentage uncertainty",
        "value=5; doubt=0.4",
        "share [%] = percent_of(doubt, value)",
        "8",
    ),
    # ------------------------------------------------------------ physics a pupil meets beside it
    Example(PHYSICS + "section 19.1, resistance", "v=12.0 V; i=2.50 A", "r [Ω] = v / i", "4.8"),
    Example(
        PHYSICS + "section 11.2, water and pan heated together",
        "water=0.250 kg; pan=0.500 kg; t1=20.0 °C; t2=80.0 °C; c1=4186 J/(kg °C); c2=900 J/(kg °C)",
        "both [kJ] = (water * c1 + pan * c2) * (t2 - t1) in kJ",
        "89.8",
    ),
    Example(COLLEGE + "example 20.8", "p=60 W; t=1000 h", "energy [kWh] = p * t in kWh", "60.0"),
    Example(
        COLLEGE + "example 2.16",
        "height=1.0000 m; time=0.45173 s",
        "g [m/s2] = 2 * height / time^2",
        "9.8010",
    ),
)
