"""How well Saywright hears and understands: made speech and human recordings in, figures out.

Run by `make accuracy`. Audio is built from the text in tools/corpus when it is asked for and
kept in .cache/, as is what each listener heard in it; both are named by what they are made of.
"""
