"""The desk for programs."""

from __future__ import annotations

import pytest

ITEM = "/api/jobs/20260314-1/items/s1"


@pytest.fixture
def token(visit):
    """The headers of a change."""
    return {"x-desk-token": visit.client.get("/api/session").json()["token"]}


def seen(visit):
    """The event of s1 as it stands."""
    return visit.client.get(ITEM).json()["event"]


def test_pages_are_not_in_the_description(visit):
    """The description names what is under /api and nothing else; no page shows it."""
    paths = visit.client.get("/openapi.json").json()["paths"]
    assert {"/api/jobs", "/api/jobs/{job}/items/{item}/accept"} <= set(paths)
    assert [] == [path for path in paths if not path.startswith("/api/")]
    assert [404, 404] == [visit.client.get(path).status_code for path in ("/docs", "/redoc")]


def test_a_job_is_found_and_its_record_read(visit):
    """The list and the record are the bench's own."""
    assert ["20260314-1"] == [row["id"] for row in visit.client.get("/api/jobs").json()]
    record = visit.client.get("/api/jobs/20260314-1/record").json()
    assert visit.bench().record().as_json() == record


@pytest.mark.parametrize(
    ("asked", "number"),
    [
        ("serial=hb 2047", 1),
        ("serial=HB-2048", 0),
        ("customer=SCRIPT", 1),
        ("date=2026-03", 1),
        ("date=2026-04-01", 0),
        ("part=main jet", 1),
        ("part=pad", 0),
        ("serial=HB&part=float", 1),
    ],
)
def test_jobs_are_searched(visit, asked, number):
    """By serial, customer, day and part; a part counts where something is on record about it."""
    assert number == len(visit.client.get(f"/api/jobs?{asked}").json())


def test_a_change_by_a_program(visit, token):
    """It carries the token and what was seen, and is one event."""
    answer = visit.client.post(f"{ITEM}/accept", json={"seen": seen(visit)}, headers=token)
    assert (200, {"event": visit.bench().events()[-1].seq}) == (answer.status_code, answer.json())
    assert "accepted as it was" == visit.client.get(f"{ITEM}/history").json()[-1]["what"]


def test_a_change_without_the_token_is_refused(visit):
    """A page of another site cannot send the header."""
    assert 403 == visit.client.post(f"{ITEM}/accept", json={"seen": seen(visit)}).status_code


def test_a_stale_change_is_told_what_happened_since(visit, token):
    """The first of two wins; the other is told by whom and what."""
    before = seen(visit)
    sent = {"changes": {"value": "18.40"}, "why": "listened", "seen": before}
    assert 200 == visit.client.post(f"{ITEM}/correct", json=sent, headers=token).status_code
    answer = visit.client.post(f"{ITEM}/withdraw", json={"why": "late", "seen": before}, headers=token)
    assert (409, ["Ada: corrected: value → 18.40"]) == (answer.status_code, answer.json()["since"])


def test_faults_come_as_json(visit, token):
    """What, where and what to do, for what is unknown and for what cannot be read."""
    lost = visit.client.get("/api/jobs/none/record")
    assert (404, "no such job") == (lost.status_code, lost.json()["what"])
    bad = visit.client.post(f"{ITEM}/accept", json={"seen": "x"}, headers=token)
    assert (422, "seen") == (bad.status_code, bad.json()["where"])


def test_entered_split_merged_undone_by_a_program(visit, token):
    """Each is one event, and the last of them can be taken back."""

    def send(path, **sent):
        answer = visit.client.post(f"/api/jobs/20260314-1/{path}", json=sent, headers=token)
        assert 200 == answer.status_code, answer.text
        return answer.json()["event"]

    fields = {
        "kind": "reading",
        "component": "pad",
        "characteristic": "thickness",
        "value": "4.2",
        "unit": "mm",
    }
    made = send("items", fields=fields, why="forgot to say")
    split = send("items/s10/split", into=[{"which": "left"}, {"which": "right", "value": "4.1"}], seen=made)
    merged = send("items/s11/merge", others={"s12": split}, seen=split)
    left = visit.client.get("/api/jobs/20260314-1/items/s11").json()
    assert ("left pad: thickness 4.2 mm", merged) == (left["text"], left["event"])
    send("undo")
    assert None is visit.client.get("/api/jobs/20260314-1/items/s12").json()["item"]["superseded_by"]


def test_hostile_requests_made_from_the_description(visit, token):
    """What the description allows and forbids: never a failure of the desk, always what it declares.

    A fixed number of requests for each way in, the same at every run.
    """
    import hypothesis
    import schemathesis
    from schemathesis.checks import CHECKS, load_all_checks

    load_all_checks()
    checks = CHECKS.get_by_names(
        [
            "not_a_server_error",
            "status_code_conformance",
            "content_type_conformance",
            "response_schema_conformance",
        ]
    )
    host = {"host": "127.0.0.1:8643"}
    schema = schemathesis.openapi.from_asgi("/openapi.json", visit.client.app, headers=host)
    cookies = dict(visit.client.cookies)
    here = {"job": "20260314-1", "item": "s1"}
    seen: set[int] = set()
    for found in schema.get_all_operations():
        operation = found.ok()

        @hypothesis.settings(
            max_examples=10,
            derandomize=True,
            database=None,
            deadline=None,
            suppress_health_check=list(hypothesis.HealthCheck),
        )
        @hypothesis.given(
            case=operation.as_strategy(generation_mode=schemathesis.GenerationMode.POSITIVE)
            | operation.as_strategy(generation_mode=schemathesis.GenerationMode.NEGATIVE),
            known=hypothesis.strategies.booleans(),
        )
        def requests(case, known):
            if known:
                case.path_parameters = {name: here.get(name, "x") for name in case.path_parameters}
            answer = case.call(cookies=cookies, headers={**token, **host})
            seen.add(answer.status_code)
            case.validate_response(answer, checks=checks)

        requests()
    assert {200, 404, 422} <= seen
    visit.store.verify("20260314-1")
