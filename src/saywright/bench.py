"""The one way in: wires hearing, understanding, record, judging, photos, store and report.

Faces (`cli`, `web`) call `Bench` and nothing deeper.
"""
