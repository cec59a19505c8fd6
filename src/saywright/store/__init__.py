"""Events and media, kept: the append-only log and the content-named files, behind one protocol.

Comes in: payloads with time and actor; bytes. Goes out: events, verified; paths and bytes.
May live here: SQL, file names, fsync. May not: any knowledge of what an event means.
"""
