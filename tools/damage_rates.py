"""Hit and false-alarm rate of the proposals of damage, on faces and screw heads drawn with known damage.

Usage: python tools/damage_rates.py
"""

from __future__ import annotations

from photo_damage import FEATURES, FINISHES, Box, face, screw, sound_face

from saywright.errors import InputError
from saywright.photos.damage import scoring, slot_damage

EACH = 25
DEPTHS = (15.0, 25.0, 40.0, 60.0)
CHIPS = (0.0, 0.1, 0.2, 0.3, 0.5)


def overlap(first: Box, second: Box) -> float:
    """Area in common, of the smaller one's."""
    wide = min(first[0] + first[2], second[0] + second[2]) - max(first[0], second[0])
    high = min(first[1] + first[3], second[1] + second[3]) - max(first[1], second[1])
    least = min(first[2] * first[3], second[2] * second[3])
    return max(0.0, wide) * max(0.0, high) / least if least > 0 else 0.0


def faces() -> None:
    """Scoring by finish and depth: how many are hit, how many boxes lie elsewhere, a picture."""
    print(f"scoring: hits, % of {EACH}; boxes elsewhere, a picture")
    print("finish    none " + "".join(f"{f'depth {depth:g}':>16}" for depth in DEPTHS))
    for finish in FINISHES:
        sound = [scoring(face(finish, seed)[0]) for seed in range(EACH)]
        row = f"{finish:8} {sum(map(len, sound)) / EACH:5.2f} "
        for depth in DEPTHS:
            hits = stray = 0
            for seed in range(EACH):
                pixels, where = face(finish, seed, scratches=6, depth=depth)
                boxes = [overlap(one.box, where) for one in scoring(pixels)] if where else []
                hits += any(share > 0.3 for share in boxes)
                stray += sum(share <= 0.3 for share in boxes)
            row += f"{100 * hits / EACH:9.0f} {stray / EACH:6.2f}"
        print(row)


def sound() -> None:
    """What is made so and no damage, on a plain face: how often it is proposed, how many boxes a picture."""
    print(f"\nno damage: proposed as scoring, % of {EACH}; boxes a picture")
    for feature in FEATURES:
        found = [scoring(sound_face(feature, seed)) for seed in range(EACH)]
        told = 100 * sum(map(bool, found)) / EACH
        print(f"{feature:12} {told:6.0f} {sum(map(len, found)) / EACH:8.2f}")


def slots() -> None:
    """Slot damage by how far the edge is broken out."""
    print(f"\nslot damage: share with a proposal, % of {EACH} heads; no slot seen")
    for chipped in CHIPS:
        told = unseen = 0
        for seed in range(EACH):
            pixels, box = screw(seed, chipped=chipped)
            try:
                told += bool(slot_damage(pixels, box))
            except InputError:
                unseen += 1
        print(f"broken out by {100 * chipped:3.0f} % of the width {100 * told / EACH:6.0f} {unseen:4}")


def main() -> None:
    """Print the tables."""
    faces()
    sound()
    slots()


if __name__ == "__main__":
    main()
