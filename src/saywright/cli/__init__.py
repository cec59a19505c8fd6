"""Arguments → `Bench` → text or JSON.

Comes in: a command line. Goes out: text for people, or JSON with `--json`; exit code 0 only when
what was asked was done. May live here: arguments, tables, progress. May not: anything that decides
about the record; that is `Bench`.
"""
