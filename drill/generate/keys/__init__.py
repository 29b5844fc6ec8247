"""Numbers become keys: right answers, marking points and what every slip gives."""
