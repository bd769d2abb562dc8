"""The one finding of the pages themselves: a text changed by somebody else in the meantime."""

from __future__ import annotations

from html import unescape

from casewright.app.jobs.kept_jobs import KeptJobs
from casewright.findings import Finding
from finding_rows import Provoke, Row, check
from web_bench import JOB, Client


def test_a_text_overtaken_by_another_is_given_back(saved: KeptJobs, client: Client) -> None:
    def sent(based_on: int) -> Provoke:
        """What the page says of a text that goes back to `based_on`."""

        def findings() -> list[Finding]:
            text = JOB.replace("62 1/2", f"{63 + saved.take('larder').newest}")
            answer = client.ask("POST", "/jobs/larder/text", data={"text": text, "based_on": based_on})
            page = unescape(answer.text)
            if answer.status_code != 409:
                assert answer.status_code == 303
                return []
            assert text.splitlines()[0] in page and f"{63 + saved.take('larder').newest}" in page
            fix = "What was saved is shown first, then your text: take it over there, then save."
            assert fix in page and "revision" in page
            return [Finding("overtaken", "text", "revision 2." if "revision 2" in page else page, fix)]

        return findings

    assert (
        client.ask(
            "POST", "/jobs/larder/text", data={"text": JOB.replace("62 1/2", "63"), "based_on": 1}
        ).status_code
        == 303
    )
    check(Row("overtaken", "text", "revision 2", "What was saved is shown first", sent(1), sent(2)))
