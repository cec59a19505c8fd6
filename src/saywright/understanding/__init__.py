"""Words → statements: numbers, units, names and bench talk read with a sheet and a discourse state.

In: utterances with their hypotheses, the sheet as a lexicon, the state of the talk. Out: the next
state and the statements: readings, conditions, actions, movements, identifiers, photo marks,
corrections, remarks.
Pure: no clock, files or chance; only `grammar_text` reads the grammars that ship with the package.
"""
