"""A browser without a window, for what loads the desk: one connection that is kept, and its session."""

from __future__ import annotations

import asyncio
import json
import re
from urllib.parse import quote


class Browser:
    """One connection that is kept, with its session."""

    def __init__(self, port: int) -> None:
        """For the server on *port* of loopback."""
        self.port = port
        self.cookie = self.token = ""
        self.streams: tuple[asyncio.StreamReader, asyncio.StreamWriter] | None = None

    async def begin(self) -> None:
        """Get a session and its token."""
        _, body = await self.ask("GET", "/api/session")
        self.token = json.loads(body)["token"]

    async def ask(
        self, method: str, path: str, body: bytes = b"", kind: str = "application/json"
    ) -> tuple[int, bytes]:
        """Send a request; status and body of the answer."""
        if self.streams is None:
            self.streams = await asyncio.open_connection("127.0.0.1", self.port)
        reader, writer = self.streams
        head = f"{method} {path} HTTP/1.1\r\nhost: 127.0.0.1:{self.port}\r\ncookie: {self.cookie}\r\n"
        head += f"x-desk-token: {self.token}\r\ncontent-type: {kind}\r\ncontent-length: {len(body)}\r\n\r\n"
        writer.write(head.encode() + body)
        await writer.drain()
        answer = (await reader.readuntil(b"\r\n\r\n")).decode("latin-1")
        if found := re.search(r"set-cookie: ([^;]+)", answer):
            self.cookie = found[1]
        length = re.search(r"content-length: (\d+)", answer)
        content = await reader.readexactly(int(length[1])) if length else b""
        return int(answer.split(" ", 2)[1]), content

    async def close(self) -> None:
        """Let the connection go."""
        if self.streams is not None:
            self.streams[1].close()
            await self.streams[1].wait_closed()


async def watch(port: int, job: str) -> int:
    """A board that stays open: its stream is read until it is cancelled; how many bytes came."""
    reader, writer = await asyncio.open_connection("127.0.0.1", port)
    writer.write(f"GET /jobs/{quote(job)}/stream HTTP/1.1\r\nhost: 127.0.0.1:{port}\r\n\r\n".encode())
    await writer.drain()
    came = 0
    try:
        while block := await reader.read(65536):
            came += len(block)
    finally:
        writer.close()
    return came
