"""The names of a sheet as people say them: short, in pieces, by another word."""
