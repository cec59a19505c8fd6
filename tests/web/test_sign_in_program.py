"""A program signs in with JSON, and is told in JSON why not."""

from __future__ import annotations

import pytest

from saywright.web.proof import BY_NAME

RIGHT = {"name": "Tess", "passphrase": "low tide at seven"}
JSON = {"accept": "*/*"}


def test_a_program_signs_in_and_changes_the_record(staff):
    """Name and role come back, the cookie opens the pages, and the token of the session makes changes."""
    client = staff.browser()
    answer = client.post("/sign-in", json=RIGHT, headers=JSON)
    assert (200, {"name": "Tess", "role": "technician"}) == (answer.status_code, answer.json())
    token = client.get("/api/session").json()["token"]
    fields = {
        "kind": "reading",
        "component": "float",
        "characteristic": "height",
        "value": "18.5",
        "unit": "mm",
    }
    path = f"/api/jobs/{staff.job.JOB}/items"
    made = client.post(path, json={"fields": fields}, headers={"x-desk-token": token})
    assert 200 == made.status_code, made.text
    assert "Tess" == staff.events()[-1].actor


@pytest.mark.parametrize(
    ("sent", "what"),
    [
        ({"name": "Tess", "passphrase": "the slip is wet"}, "the name or the passphrase is not right"),
        ({"name": "Nobody", "passphrase": "low tide at seven"}, "the name or the passphrase is not right"),
        ({"name": "Tess"}, "a name and a passphrase are needed"),
        ({"name": 7, "passphrase": ["low tide at seven"]}, "a name and a passphrase are needed"),
        ([], "a name and a passphrase are needed"),
    ],
)
def test_what_does_not_fit_is_told_in_json(staff, sent, what):
    """422 with what is wrong and what to do, and nobody is signed in."""
    client = staff.browser()
    answer = client.post("/sign-in", json=sent, headers=JSON)
    assert (422, what) == (answer.status_code, answer.json()["what"])
    assert answer.json()["to_do"]
    assert 401 == client.get("/api/session", headers=JSON).status_code


def test_what_is_no_json_is_told_in_json(staff):
    """Broken text under the type of JSON is refused like a form without its fields."""
    headers = {**JSON, "content-type": "application/json"}
    answer = staff.browser().post("/sign-in", content=b"{\xff", headers=headers)
    assert (422, "sign-in") == (answer.status_code, answer.json()["where"])


def test_a_program_is_slowed_down_too(staff):
    """Guessing with JSON is met like guessing in the form."""
    client = staff.browser()
    wrong = {**RIGHT, "passphrase": "the slip is wet"}
    for _ in range(BY_NAME.free):
        assert 422 == client.post("/sign-in", json=wrong, headers=JSON).status_code
    answer = client.post("/sign-in", json=RIGHT, headers=JSON)
    assert (429, "too many tries did not fit") == (answer.status_code, answer.json()["what"])
    assert 1 <= int(answer.headers["retry-after"])


def test_json_of_another_site_signs_nobody_in(staff):
    """A page of a stranger may not sign a browser in under a name of its own."""
    headers = {**JSON, "origin": "http://198.51.100.9"}  # TEST-NET-2 of RFC 5737
    client = staff.browser()
    assert 403 == client.post("/sign-in", json=RIGHT, headers=headers).status_code
    assert 401 == client.get("/api/session", headers=JSON).status_code
