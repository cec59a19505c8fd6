"""record → judged record: limits, uncertainty, what is missing, what waits for a person.

In: the folded record and its bench sheet. Out: the record with decisions and open items, and
for each reading the figures and the sentence they rest on. Pure: no clock, files or chance.
"""
