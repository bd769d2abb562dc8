"""A backup to carry away, and the way back to one, on the machine itself."""

from __future__ import annotations

from pathlib import Path
from secrets import token_urlsafe
from shutil import rmtree
from tempfile import mkdtemp
from typing import Annotated
from weakref import finalize

from fastapi import APIRouter, Depends, File, Form, HTTPException, Request, Response, UploadFile
from fastapi.responses import FileResponse, RedirectResponse
from starlette.background import BackgroundTask

from ...app.jobs.backups import back_up, backup_name, opened_copy, preview_restore, put_backup_back
from ...errors import StoreError
from ..rendering import SavedJobs, page
from ..this_machine import for_this_machine

RESTORE = "/backup/restore"
LARGEST_BACKUP = 2_000_000_000
PIECE = 1 << 20
SENT = "sent"

router = APIRouter(prefix="/backup", include_in_schema=False, dependencies=[Depends(for_this_machine)])


class PassingFolder:
    """A folder that is gone as soon as nobody holds it any more, at the latest when the program ends."""

    def __init__(self) -> None:
        self.path = Path(mkdtemp(prefix="casewright-"))
        self.key = token_urlsafe(9)
        self._gone = finalize(self, rmtree, self.path, ignore_errors=True)

    def remove(self) -> None:
        """Be gone now."""
        self._gone()


@router.get("")
def backup_page(request: Request) -> Response:
    """A button for each way."""
    return page(request, "backup/page.html")


@router.get("/file")
def download_backup(saved: SavedJobs) -> Response:
    """The whole file as it is now, while others go on working."""
    folder = PassingFolder()
    name = backup_name(saved.file.path, saved.clock())
    back_up(saved.file.path, folder.path / name)
    kind, after = "application/vnd.sqlite3", BackgroundTask(folder.remove)
    return FileResponse(folder.path / name, filename=name, media_type=kind, background=after)


@router.post("/restore")
def preview(request: Request, saved: SavedJobs, file: Annotated[UploadFile, File()]) -> Response:
    """What going back to an uploaded backup would do. Nothing is done yet; only the last one sent is kept."""
    folder = PassingFolder()
    with (folder.path / SENT).open("wb") as out:
        while piece := file.file.read(PIECE):
            out.write(piece)
    try:
        with opened_copy(folder.path / SENT, file.filename or "The file") as copy:
            found = preview_restore(saved.file.path, copy)
    except StoreError as fault:
        raise HTTPException(422, str(fault)) from fault
    request.app.state.sent_backup = folder
    return page(request, "backup/preview.html", found=found, name=file.filename, key=folder.key)


@router.post("/restore/confirm")
def post_restore(request: Request, saved: SavedJobs, key: Annotated[str, Form()]) -> Response:
    """Go back to the backup that was looked at."""
    there = request.app.state.sent_backup
    if there is None or there.key != key:
        raise HTTPException(409, "Another backup was chosen since, so nothing was done. Choose yours again.")
    with opened_copy(there.path / SENT) as copy:
        kept = put_backup_back(saved.file.path, copy, saved.clock())
    request.app.state.sent_backup = None
    request.app.state.forget()
    return RedirectResponse(f"/backup/done?kept={kept.name if kept else ''}", 303)


@router.get("/done")
def restored(request: Request, kept: str = "") -> Response:
    """That it is done, and where the file as it was is kept."""
    return page(request, "backup/done.html", kept=kept)
