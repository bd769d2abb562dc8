"""A backup is downloaded from the page, looked at, and gone back to."""

from __future__ import annotations

import re

from casewright.app.jobs.kept_jobs import KeptJobs
from web_bench import JOB, Client


def send(client: Client, content: bytes, name: str = "shop.casewright") -> str:
    answer = client.post("/backup/restore", files={"file": (name, content)})
    assert answer.status_code == 200, answer.text
    return answer.text


def confirm(client: Client, page: str) -> int:
    key = re.search(r'name="key" value="([^"]+)"', page)
    assert key
    return client.post("/backup/restore/confirm", data={"key": key[1]}).status_code


def test_down_and_back(client: Client, saved: KeptJobs) -> None:
    assert "/backup/file" in client.get("/backup").text
    taken = client.get("/backup/file")
    assert taken.content.startswith(b"SQLite format 3\x00")
    assert re.search(r'filename="shop-[\dT-]+\.casewright"', taken.headers["content-disposition"])
    assert "Nothing would be lost." in send(client, taken.content)
    saved.rewrite("larder", JOB + "# later\n", "later", 1)
    looked = send(client, taken.content)
    assert "Larder: 1 revision would be lost" in looked and saved.take("larder").newest == 2
    assert confirm(client, looked) == 303
    assert saved.take("larder").newest == 1
    assert confirm(client, looked) == 409, "once is enough"


def test_a_backup_looked_at_and_then_another_is_not_taken_for_it(client: Client, saved: KeptJobs) -> None:
    first = client.get("/backup/file").content
    looked = send(client, first)
    saved.rewrite("larder", JOB + "# later\n", "later", 1)
    send(client, client.get("/backup/file").content)
    assert confirm(client, looked) == 409
    assert saved.take("larder").newest == 2


def test_of_a_damaged_file_it_is_not_said_that_nothing_would_be_lost(client: Client, saved: KeptJobs) -> None:
    taken = client.get("/backup/file").content
    for beside in saved.file.path.parent.glob(f"{saved.file.path.name}-*"):
        beside.unlink()
    saved.file.path.write_bytes(b"\xff" * 9000)
    looked = send(client, taken)
    assert "Nothing would be lost" not in looked and "not there" not in looked
    assert "is damaged" in looked and "<td>cannot be read</td>" in looked
    assert confirm(client, looked) == 303
    assert saved.take("larder").newest == 1


def test_what_is_no_backup_is_refused_under_its_own_name(client: Client, saved: KeptJobs) -> None:
    answer = client.post("/backup/restore", files={"file": ("letter.txt", b"dear aunt " * 200)})
    assert answer.status_code == 422 and "letter.txt is damaged or is not a casewright file" in answer.text
    assert saved.take("larder").newest == 1


def test_a_backup_may_be_longer_than_other_requests(client: Client) -> None:
    answer = client.post("/backup/restore", files={"file": ("big", b"x" * 5_000_000)})
    assert answer.status_code == 422
