"""`python -m drill` is the same as `drill`."""

from drill.cli import run

if __name__ == "__main__":
    run()
