"""Use cases, one file each: an opened store, a bank and the time in, frozen typed rows out.

A report, a paper or a page works with the same rows as the command line. `context` opens what a
use case works on; `rows` says how a row becomes JSON. Nothing here prints or asks the time.
"""
