"""Long work in the background: started, asked after, stopped; the answer is kept when done.

A job belongs to the text that it was started with: its ``build_hash`` tells whether the build has
changed since, its ``rests_on`` whether a march has come that it knew nothing of.  One job runs at a
time, and in pieces, so that pages keep their turn.
"""

from __future__ import annotations

import secrets
import threading
import traceback
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from typing import Any, Literal, Protocol

State = Literal["running", "done", "stopped", "failed"]
Tell = Callable[[float], bool]
"""Hears the share that is done (0 to 1) and says whether to go on."""

_MOST_KEPT = 100


@dataclass(frozen=True)
class Job:
    """A job as it stands at this moment."""

    id: str
    kind: str
    build: str
    build_hash: str
    state: State
    progress: float
    message: str
    result: dict[str, Any] | None
    rests_on: str = ""
    """Stamp of the march that the answer takes its shocks from; empty for none."""


@dataclass(frozen=True)
class Task:
    """Work that was understood and can begin: the hash of its text, a kept answer, or how to work.

    ``work`` gives the answer, or None if it was told to stop; ``rests_on`` is the stamp of the
    march that it takes, empty for none.
    """

    build_hash: str
    known: dict[str, Any] | None
    work: Callable[[Tell], dict[str, Any] | None]
    rests_on: str = ""


class JobKind(Protocol):
    """Makes a task of a text; raises an error in words if the text will not do."""

    def __call__(self, text: str) -> Task:
        """Understand the text."""


class NoJobError(LookupError):
    """There is no such job, or no such kind of job."""


class Jobs:
    """The jobs of this server, newest last; finished ones are forgotten when there are many."""

    def __init__(self, kinds: Mapping[str, JobKind]) -> None:
        self._kinds = dict(kinds)
        self._lock = threading.Lock()
        self._turn = threading.Lock()
        self._jobs: dict[str, Job] = {}
        self._stop: dict[str, threading.Event] = {}
        self._threads: dict[str, threading.Thread] = {}
        self._closed = False

    @property
    def kinds(self) -> tuple[str, ...]:
        """Kinds of job that can be started."""
        return tuple(self._kinds)

    def start(self, kind: str, build_id: str, text: str) -> Job:
        """Start a job, or give the one that is already running on the same text."""
        if kind not in self._kinds:
            raise NoJobError(f"there is no job {kind!r}; known are {', '.join(self._kinds)}")
        task = self._kinds[kind](text)
        with self._lock:
            if self._closed:
                raise NoJobError("the workbench is shutting down; no job was started")
            for other in self._jobs.values():
                if (other.kind, other.build, other.build_hash, other.rests_on, other.state) == (
                    kind, build_id, task.build_hash, task.rests_on, "running",
                ):  # fmt: skip
                    return other
            job = Job(
                secrets.token_urlsafe(9), kind, build_id, task.build_hash,
                "running", 0.0, "waiting for its turn", None, task.rests_on,
            )  # fmt: skip
            if task.known is not None:
                job = replace(job, state="done", progress=1.0, message="done", result=task.known)
                self._put(job)
                return job
            self._put(job)
            self._stop[job.id] = threading.Event()
            thread = threading.Thread(
                target=self._run, args=(job.id, task), name=f"job {job.id}", daemon=True
            )
            self._threads[job.id] = thread
            thread.start()
        return job

    def get(self, job_id: str) -> Job:
        """The job as it stands now."""
        with self._lock:
            try:
                return self._jobs[job_id]
            except KeyError:
                raise NoJobError(f"there is no job {job_id!r}") from None

    def of(self, build_id: str) -> tuple[Job, ...]:
        """The jobs of a build, newest first."""
        with self._lock:
            return tuple(j for j in reversed(self._jobs.values()) if j.build == build_id)

    def stop(self, job_id: str) -> Job:
        """Tell a job to stop; one that is over stays as it is."""
        with self._lock:
            if job_id not in self._jobs:
                raise NoJobError(f"there is no job {job_id!r}")
            if self._jobs[job_id].state == "running":
                self._stop[job_id].set()
                self._jobs[job_id] = replace(self._jobs[job_id], state="stopped", message="stopped")
            return self._jobs[job_id]

    def wait(self, job_id: str, seconds: float) -> Job:
        """Wait until a job is over, at most so long."""
        thread = self._threads.get(job_id)
        if thread is not None:
            thread.join(seconds)
        return self.get(job_id)

    def close(self) -> None:
        """Stop every job and wait for the piece that each is at."""
        with self._lock:
            self._closed = True
            running = [j.id for j in self._jobs.values() if j.state == "running"]
            threads = list(self._threads.values())
        for job_id in running:
            self.stop(job_id)
        for thread in threads:
            thread.join(10.0)

    def _put(self, job: Job) -> None:
        self._jobs[job.id] = job
        over = [j.id for j in self._jobs.values() if j.state != "running"]
        for old in over[: max(0, len(self._jobs) - _MOST_KEPT)]:
            del self._jobs[old]

    def _change(self, job_id: str, **changes: Any) -> None:
        """Change a job that still runs; one that was stopped stays stopped."""
        with self._lock:
            job = self._jobs.get(job_id)
            if job is not None and job.state == "running":
                self._jobs[job_id] = replace(job, **changes)

    def _run(self, job_id: str, task: Task) -> None:
        stop = self._stop[job_id]

        def tell(share: float) -> bool:
            self._change(job_id, progress=share, message=f"{share * 100:.0f} % done")
            return not stop.is_set()

        try:
            with self._turn:
                result = None if stop.is_set() else task.work(tell)
            if result is not None:
                self._change(job_id, state="done", progress=1.0, message="done", result=result)
        except Exception as e:
            traceback.print_exc()
            words = f"This is a fault of axlewright, not yours ({type(e).__name__})."
            self._change(job_id, state="failed", message=words)
        finally:
            with self._lock:
                self._stop.pop(job_id, None)
                self._threads.pop(job_id, None)
