"""camera files → photos: checked, dated, matched to the spoken photo mark, annotated.

In: image files (`intake` alone reads them), spoken marks with their times. Out: pixels as
(height, width, 3) uint8 RGB, `PhotoChecks`, matches with their confidence, JPEG bytes free of
metadata. `checks`, `match` and `annotate` are pure: arrays and times in, values out.
"""
