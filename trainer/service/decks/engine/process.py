"""The process of a UCI engine, through python-chess's client: started, asked, always ended.

Everything runs on an event loop of its own that stands still between two questions. The
engine gets a process group, so that whatever it starts itself ends with it.
"""

from __future__ import annotations

import asyncio
import logging
import os
import shutil
import signal
import subprocess
from collections.abc import Coroutine, Sequence
from contextlib import suppress
from types import TracebackType
from typing import Any, Self, TypeVar

import chess
import chess.engine

from trainer.deck.check.opinion import MATE, Question, Scored
from trainer.errors import TrainerError

START_SECONDS = 10.0
"""How long an engine may take to say that it speaks UCI."""

LEAVE_SECONDS = 1.0
"""How long it may take to leave when asked to."""

SEARCH_SECONDS = 30.0
"""How long one search may take, whatever it is of."""

SLOWEST_NODES = 5_000
"""Nodes a second that any engine reaches; slower ones count as hanging."""

_HASH_MB = 16

_Answer = TypeVar("_Answer")


class EngineFailed(TrainerError):
    """The engine cannot be used, or did not answer."""


class Engine:
    """A running engine; a context manager, which ends it."""

    def __init__(self, path: str, nodes: int, patience: float | None = None) -> None:
        """Start the engine.

        :param patience: seconds to wait for any answer; None for what suits the nodes.
        :raises EngineFailed: there is none, or it does not speak UCI.
        """
        self._path = path
        self._nodes = nodes
        self._patience = patience
        self._is_set_up = False
        # The client logs what it does not understand; a person is told once, by us.
        logging.getLogger("chess.engine").setLevel(logging.CRITICAL + 1)
        self._runner = asyncio.Runner()
        # Nor need anybody hear what the client leaves undone when its engine is ended.
        self._runner.get_loop().set_exception_handler(lambda _loop, _context: None)
        self._transport: asyncio.SubprocessTransport | None = None
        try:
            self._client = self._run(self._start(), patience or START_SECONDS, "start")
        except BaseException:
            self.end()
            raise

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        traceback: TracebackType | None,
    ) -> None:
        self.end()

    @property
    def name(self) -> str:
        """What the engine calls itself."""
        return self._client.id.get("name", "an engine without a name")

    def ask(self, question: Question) -> Scored:
        """Search to the number of nodes, from an empty memory: the same answer each time.

        :raises EngineFailed: it ended, answered nonsense, or did not answer in time.
        """
        patience = self._patience or SEARCH_SECONDS + self._nodes / SLOWEST_NODES
        return self._run(self._search(question), patience, "answer")

    def end(self) -> None:
        """End the process and all that it started; a second time does nothing."""
        transport, self._transport = self._transport, None
        if transport is not None:
            self._leave(transport)
        self._runner.close()

    async def _start(self) -> chess.engine.UciProtocol:
        program = shutil.which(self._path)
        if program is None:
            raise FileNotFoundError("there is no such program that may be run")
        self._transport, client = await chess.engine.UciProtocol.popen(
            program, setpgrp=True, stderr=subprocess.DEVNULL
        )
        await client.initialize()
        return client

    async def _search(self, question: Question) -> Scored:
        if not self._is_set_up:
            wanted = {"Threads": 1, "Hash": _HASH_MB}
            there = {name: value for name, value in wanted.items() if name in self._client.options}
            await self._client.configure(there)
            self._is_set_up = True
        info = await self._client.analyse(
            chess.Board(f"{question.position} 0 1"),
            chess.engine.Limit(nodes=self._nodes),
            game=object(),
            info=chess.engine.INFO_SCORE | chess.engine.INFO_PV,
            root_moves=[chess.Move.from_uci(uci) for uci in question.moves] or None,
        )
        return _scored(info, question.moves)

    def _run(self, what: Coroutine[Any, Any, _Answer], patience: float, verb: str) -> _Answer:
        try:
            return self._runner.run(_within(what, patience))
        except TimeoutError as error:
            message = f"it did not {verb} within {patience:.0f} seconds"
            raise self._failed(message) from error
        except chess.engine.EngineTerminatedError as error:
            raise self._failed(f"it ended before it could {verb}") from error
        except chess.engine.EngineError as error:
            raise self._failed(str(error)[:200]) from error
        except OSError as error:
            raise self._failed((error.strerror or str(error)).lower()) from error

    def _failed(self, why: str) -> EngineFailed:
        return EngineFailed(
            f"{self._path}: not usable as an engine: {why}; "
            "--engine takes the path of a program that speaks UCI"
        )

    def _leave(self, transport: asyncio.SubprocessTransport) -> None:
        pid = transport.get_pid()
        try:
            with suppress(Exception):
                self._runner.run(_within(self._client.quit(), LEAVE_SECONDS))
        finally:
            _kill_group(pid)
            with suppress(Exception):
                self._runner.run(_within(_closed(transport), LEAVE_SECONDS))


async def _within(what: Coroutine[Any, Any, _Answer], seconds: float) -> _Answer:
    return await asyncio.wait_for(what, seconds)


async def _closed(transport: asyncio.SubprocessTransport) -> None:
    """Close the pipes and wait until the process is gone."""
    transport.close()
    while transport.get_returncode() is None:
        await asyncio.sleep(0.005)
    await asyncio.sleep(0)


def _kill_group(pid: int) -> None:
    """End the engine and what it started, where the system knows process groups."""
    if hasattr(os, "killpg"):
        with suppress(OSError):
            os.killpg(pid, signal.SIGKILL)


def _scored(info: chess.engine.InfoDict, moves: Sequence[str]) -> Scored:
    """The best move with its score.

    :raises EngineError: the engine gave none, or another than those it was to choose from.
    """
    line, score = info.get("pv"), info.get("score")
    if not line or score is None:
        raise chess.engine.EngineError("it gives no move with a score")
    uci = line[0].uci()
    if moves and uci not in moves:
        raise chess.engine.EngineError("it does not keep to the moves asked about (searchmoves)")
    return Scored(uci, score.relative.score(mate_score=MATE))
