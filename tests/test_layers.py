"""The drawing of the house, checked: who may import whom, and which modules touch nothing outside.

Data goes from hearing to understanding to record to judging to report, never back. A pure module
has no clock, no chance, no files and no network; what it imports from outside is listed below.
A module that fits no row fails: give it a row, or put it where one fits.
"""

from __future__ import annotations

import ast
import subprocess
import sys
from dataclasses import dataclass
from fnmatch import fnmatchcase
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent / "src" / "saywright"

PURE, EDGE = True, False
LEAVES = "errors flags units quantity"
RECORD = "record.* understanding.statements hearing.words sheets.model"

# Pattern of modules, pure or edge, patterns of our own modules it may import. The first row that fits counts.
TABLE = (
    ("errors", PURE, "sheets.fault"),  # for a type only
    ("flags", PURE, ""),
    ("units", PURE, "errors"),
    ("quantity", PURE, "units errors"),
    ("people", PURE, "errors"),
    ("sheets", EDGE, "sheets.*"),
    ("sheets.load", EDGE, f"sheets.* {LEAVES}"),
    ("sheets.model", PURE, f"sheets.bounds {LEAVES}"),
    ("sheets.*", PURE, f"sheets.* {LEAVES}"),
    ("hearing.words", PURE, "flags"),
    ("hearing.listener", PURE, "hearing.words"),
    ("hearing.feed", PURE, "hearing.words"),
    ("hearing.follow", PURE, "hearing.words hearing.listener hearing.feed"),
    ("hearing.recorded", PURE, "hearing.words hearing.listener"),
    ("hearing.adapters.ct2_file", PURE, "errors"),
    ("hearing.adapters.merging", PURE, "hearing.adapters.ct2_file errors"),
    ("hearing.adapters.*", EDGE, f"hearing.* sheets.model {LEAVES}"),
    ("hearing.audio", EDGE, f"hearing.listener {LEAVES}"),
    ("hearing.playback", EDGE, "hearing.listener hearing.audio errors"),
    ("hearing.speaker", EDGE, LEAVES),
    ("hearing.microphone", EDGE, f"hearing.listener hearing.audio {LEAVES}"),
    ("hearing.choose", EDGE, f"hearing.* sheets.model {LEAVES}"),
    ("hearing.known_words", EDGE, "hearing.pronounce hearing.adapters.sphinx sheets.model"),
    ("hearing.trial", PURE, "hearing.level hearing.listener"),
    ("hearing.models", EDGE, f"hearing.* sheets.model {LEAVES}"),
    (
        "hearing.*",
        PURE,
        f"hearing.words hearing.listener hearing.spoken hearing.vocabulary sheets.model {LEAVES}",
    ),
    ("understanding.grammar_text", EDGE, "errors"),
    ("understanding.statements", PURE, f"sheets.model {LEAVES}"),
    ("understanding.*", PURE, f"understanding.* hearing.words hearing.spoken sheets.model {LEAVES}"),
    ("record.*", PURE, f"{RECORD} {LEAVES}"),
    ("judging.*", PURE, f"judging.* sheets.formula sheets.formula_check {RECORD} {LEAVES}"),
    ("photos.intake", EDGE, "photos.tags record.events errors"),
    ("photos.camera", EDGE, "photos.checks errors"),
    ("photos.*", PURE, f"photos.* record.types record.events {LEAVES}"),
    ("store.*", EDGE, "store.* people record.events record.chain errors"),
    ("report.assets", EDGE, ""),
    ("report.pdf", EDGE, f"report.* {LEAVES}"),
    ("report.*", PURE, f"report.* judging.* {RECORD} {LEAVES}"),
    ("scoring", PURE, f"record.types {LEAVES}"),
    (
        "wiring.*",
        EDGE,
        f"wiring.* hearing.* understanding.* judging.* photos.* store.* report.* {RECORD} {LEAVES}",
    ),
    ("bench", EDGE, f"wiring.* hearing.* judging.judge store.protocol sheets.load {RECORD} {LEAVES}"),
    ("web.describe", PURE, f"{RECORD} {LEAVES}"),
    ("web.forms", PURE, f"web.describe {RECORD} {LEAVES}"),
    ("web.trace", PURE, f"{RECORD} {LEAVES}"),
    ("web.board_told", PURE, f"web.describe {RECORD} {LEAVES}"),
    ("web.board_view", PURE, f"web.describe web.board_told {RECORD} {LEAVES}"),
    ("web.view", PURE, f"web.describe {RECORD} {LEAVES}"),
    ("web.entry", PURE, f"web.forms {RECORD} {LEAVES}"),
    ("web.timeline", PURE, f"web.describe web.view {RECORD} {LEAVES}"),
    ("web.questions", PURE, f"web.describe web.forms web.view {RECORD} {LEAVES}"),
    ("web.since", PURE, f"web.describe web.trace {RECORD} {LEAVES}"),
    ("web.pictures_view", PURE, f"{RECORD} {LEAVES}"),
    ("web.pictures_forms", EDGE, "web.* bench wiring.measuring wiring.lenses record.types errors"),
    ("web.pictures_debris", EDGE, "web.* bench wiring.measuring wiring.debris record.types errors"),
    ("web.pictures", EDGE, "web.* bench wiring.comparing record.types errors"),
    ("web.preview", EDGE, "web.* wiring.bench_review errors"),
    (
        "web.*",
        EDGE,
        "web.* bench people store.protocol record.types record.events hearing.words hearing.feed sheets.model"
        " errors",
    ),
    # A face calls Bench. It also opens what Bench is given (the store, the sheet, the ears), asks what no
    # single job can answer (wiring.history, wiring.verify), and tries the microphone before a job is opened.
    (
        "cli.*",
        EDGE,
        "cli.* web.app web.lan web.stream web.board_sitting bench people scoring store.* sheets.* hearing.* "
        "wiring.history wiring.across "
        "wiring.verify wiring.live wiring.readback wiring.marker wiring.measuring "
        "wiring.lenses wiring.comparing wiring.pictures wiring.watching wiring.shooting "
        f"record.types record.events {LEAVES}",
    ),
    ("__init__", EDGE, "bench sheets.load record.types errors"),
    ("__main__", EDGE, "cli.main"),
)

# What a pure module may import from outside: nothing here reads a clock, a file, a network or chance.
PURE_FOREIGN = (
    "__future__ abc base64 bisect collections contextlib csv cv2 dataclasses datetime decimal difflib enum "
    "fractions functools hashlib html io itertools jinja2 json lark markupsafe math numpy operator "
    "PIL pydantic re "
    "statistics string struct textwrap types typing unicodedata zlib"
)
IMPURE_CALLS = "open input print exec eval compile __import__ globals breakpoint"
IMPURE_METHODS = (
    "now utcnow today read_text write_text read_bytes write_bytes imread imwrite fromfile tofile "
    "default_rng seed shuffle randint"
)

# A library stands behind a seam: only these modules import it.
SEAMS = {
    "argon2": "store.passphrase",
    "av": "hearing.audio",
    "click": "cli.*",
    "ctranslate2": "hearing.adapters.whisper*",
    "cv2": "photos.*",
    "fastapi": "web.*",
    "faster_whisper": "hearing.adapters.*",
    "jinja2": "report.html web.render",
    "lark": "understanding.* sheets.formula",
    "onnxruntime": "hearing.adapters.silero",
    "PIL": "photos.*",
    "pillow_heif": "photos.intake",
    "platformdirs": "cli.* hearing.models",
    "pocketsphinx": "hearing.adapters.sphinx* hearing.known_words",
    "rich": "cli.*",
    "segno": "web.* cli.*",
    "sounddevice": "hearing.microphone",
    "soundfile": "hearing.audio",
    "soxr": "hearing.audio hearing.microphone",
    "sqlalchemy": "store.*",
    "sqlite3": "store.*",
    "starlette": "web.*",
    "tokenizers": "hearing.adapters.whisper*",
    "typst": "report.pdf",
    "uvicorn": "web.app",
    "vosk": "hearing.adapters.vosk*",
}


@dataclass(frozen=True)
class Module:
    """A module as its source tells it."""

    name: str  # dotted, without "saywright."; a package by its own name
    tree: ast.Module

    @property
    def ours(self) -> set[str]:
        """Our own modules that it imports, types-only imports too."""
        found: set[str] = set()
        for node in ast.walk(self.tree):
            if isinstance(node, ast.ImportFrom) and (node.module or "").split(".")[0] == "saywright":
                base = (node.module or "").removeprefix("saywright").lstrip(".")
                for alias in node.names:
                    inner = f"{base}.{alias.name}".lstrip(".")
                    found.add(inner if exists(inner) else base or "__init__")
            elif isinstance(node, ast.Import):
                names = (alias.name.split(".", 1) for alias in node.names)
                found |= {rest[0] if rest else "__init__" for top, *rest in names if top == "saywright"}
        return found

    @property
    def foreign(self) -> set[str]:
        """Top names of what it imports from outside."""
        found: set[str] = set()
        for node in ast.walk(self.tree):
            if isinstance(node, ast.Import):
                found |= {alias.name.split(".")[0] for alias in node.names}
            elif isinstance(node, ast.ImportFrom) and node.level == 0:
                found.add((node.module or "").split(".")[0])
        return found - {"saywright"}

    def impurities(self) -> list[str]:
        """Calls that read a clock, a file or chance, and statements that change a global."""
        found: list[str] = []
        for node in ast.walk(self.tree):
            if isinstance(node, ast.Global):
                found.append(f"line {node.lineno}: global {', '.join(node.names)}")
            elif isinstance(node, ast.Attribute) and node.attr == "random":
                found.append(f"line {node.lineno}: .random")
            elif isinstance(node, ast.Call):
                called = node.func
                if isinstance(called, ast.Name) and called.id in IMPURE_CALLS.split():
                    found.append(f"line {node.lineno}: {called.id}()")
                elif isinstance(called, ast.Attribute) and called.attr in IMPURE_METHODS.split():
                    found.append(f"line {node.lineno}: .{called.attr}()")
        return found


def exists(name: str) -> bool:
    """True where *name* is a module or package of ours."""
    path = ROOT.joinpath(*name.split("."))
    return path.with_suffix(".py").exists() or (path / "__init__.py").exists()


def fits(name: str, patterns: str) -> bool:
    """True where one of the patterns fits; "store.*" fits the package itself too."""
    return any(fnmatchcase(name, p) or name == p.removesuffix(".*") for p in patterns.split())


def row_of(name: str) -> tuple[str, bool, str] | None:
    """The first row of the table that fits."""
    return next((row for row in TABLE if fits(name, row[0])), None)


def read(name: str, text: str) -> Module:
    """The module with this source."""
    return Module(name, ast.parse(text))


def modules() -> list[Module]:
    """Every module of the package."""
    found = []
    for path in sorted(ROOT.rglob("*.py")):
        parts = path.relative_to(ROOT).with_suffix("").parts
        name = ".".join(parts[:-1] if parts[-1] == "__init__" and len(parts) > 1 else parts)
        found.append(read(name, path.read_text(encoding="utf-8")))
    return found


def faults(module: Module) -> list[str]:
    """What the module does that its row does not allow."""
    row = row_of(module.name)
    if row is None:
        return [f"{module.name} has no row in the table"]
    pattern, pure, allowed = row
    steps = sorted(n for n in module.ours if not fits(n, allowed) and n != module.name)
    told = [f"{module.name} ({pattern}) may not import {name}" for name in steps]
    told += [
        f"{module.name} may not import {library}; only {SEAMS[library]}"
        for library in sorted(module.foreign & SEAMS.keys())
        if not fits(module.name, SEAMS[library])
    ]
    if pure:
        told += [
            f"{module.name} is pure and imports {name}"
            for name in sorted(module.foreign - set(PURE_FOREIGN.split()))
        ]
        told += [f"{module.name} is pure: {impurity}" for impurity in module.impurities()]
    return told


@pytest.mark.parametrize("module", modules(), ids=lambda module: module.name)
def test_a_module_keeps_to_its_row(module):
    """No step up, no library outside its seam, nothing of the outside world in a pure module."""
    assert [] == faults(module)


@pytest.mark.parametrize(
    ("name", "text", "told"),
    [
        ("cellar", "", "cellar has no row in the table"),
        ("hearing.words", "from saywright.record.types import Record", "may not import record.types"),
        ("record.fold", "import saywright.store.eventlog", "may not import store.eventlog"),
        ("record.fold", "from saywright import bench", "may not import bench"),
        ("judging.limits", "import time", "is pure and imports time"),
        ("judging.limits", "from pathlib import Path", "is pure and imports pathlib"),
        ("judging.limits", "def f(x):\n    return open(x)", "line 2: open()"),
        ("judging.limits", "import datetime\nnow = datetime.datetime.now()", "line 2: .now()"),
        ("photos.match", "import numpy\nx = numpy.random.rand()", "line 2: .random"),
        ("judging.limits", "def f():\n    global x", "line 2: global x"),
        ("bench", "import vosk", "may not import vosk; only hearing.adapters.vosk*"),
    ],
)
def test_a_breach_is_found(name, text, told):
    """The check itself finds each kind of breach."""
    assert told in "; ".join(faults(read(name, text)))


@pytest.mark.parametrize("row", TABLE, ids=lambda row: row[0])
def test_a_row_without_a_wildcard_names_a_module(row):
    """The table holds no row for a module that is gone."""
    assert "*" in row[0] or exists(row[0])


def test_importing_the_package_needs_no_recogniser_and_no_device():
    """`import saywright` loads no recogniser, no microphone, no web server and no PDF maker."""
    late = "vosk faster_whisper ctranslate2 pocketsphinx sounddevice uvicorn starlette"
    code = f"import sys, saywright; print(*[n for n in {late.split()!r} if n in sys.modules])"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert "" == done.stdout.strip()
