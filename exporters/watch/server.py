"""The open page's other end: this machine only, a secret in the address, events as they come."""

from __future__ import annotations

import json
import queue
import secrets
import threading
from dataclasses import dataclass, field
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from typing import Any

HOST = "127.0.0.1"
_ALIVE_S = 10.0


@dataclass(slots=True)
class Desk:
    """What is shown now, and who is looking.

    `files` are name, kind and bytes; a listener gets each event as its name and a value.
    """

    files: dict[str, tuple[str, bytes]] = field(default_factory=dict)
    listeners: list[queue.Queue[tuple[str, Any] | None]] = field(default_factory=list)
    last_mistake: str = ""
    lock: threading.Lock = field(default_factory=threading.Lock)

    def put(self, name: str, kind: str, data: bytes) -> None:
        """A file to fetch from now on."""
        with self.lock:
            self.files[name] = (kind, data)

    def tell(self, event: str, value: Any) -> None:
        """Every open page hears of it."""
        with self.lock:
            self.last_mistake = str(value) if event == "mistake" else ""
            for each in self.listeners:
                each.put((event, value))

    def end(self) -> None:
        """Every open page's line is closed."""
        with self.lock:
            for each in self.listeners:
                each.put(None)


class Server:
    """Serves a desk under an address that only who is told it can guess."""

    def __init__(self, desk: Desk) -> None:
        self._token = secrets.token_urlsafe(18)
        self._http = ThreadingHTTPServer((HOST, 0), _handler(desk, self._token))
        self._http.daemon_threads = True
        self._desk = desk
        self._thread = threading.Thread(target=self._http.serve_forever, daemon=True)
        self._thread.start()

    @property
    def url(self) -> str:
        """Where the page is."""
        return f"http://{HOST}:{self._http.server_port}/{self._token}/"

    def close(self) -> None:
        """Nothing is served any more."""
        self._desk.end()
        self._http.shutdown()
        self._http.server_close()
        self._thread.join(timeout=5.0)


def _handler(desk: Desk, token: str) -> type[BaseHTTPRequestHandler]:
    class Handler(BaseHTTPRequestHandler):
        protocol_version = "HTTP/1.1"

        def do_GET(self) -> None:
            """A file of the desk, or its events."""
            # A page of another site could reach this port: it knows neither name nor secret.
            host = (self.headers.get("Host") or "").rsplit(":", 1)[0]
            _, given, name = [*self.path.split("?")[0].split("/", 2), "", ""][:3]
            if host != HOST or not secrets.compare_digest(given.encode(), token.encode()):
                self._answer(403, "text/plain", b"not yours")
            elif name == "events":
                self._events()
            else:
                with desk.lock:
                    found = desk.files.get(name or "index.html")
                kind, data = found or ("text/plain", b"nothing here")
                self._answer(200 if found else 404, kind, data)

        def _answer(self, code: int, kind: str, data: bytes) -> None:
            self.send_response(code)
            self.send_header("Content-Type", kind)
            self.send_header("Content-Length", str(len(data)))
            self.send_header("Cache-Control", "no-store")
            self.send_header("Referrer-Policy", "no-referrer")
            self.end_headers()
            self.wfile.write(data)

        def _events(self) -> None:
            line: queue.Queue[tuple[str, Any] | None] = queue.Queue()
            with desk.lock:
                desk.listeners.append(line)
                if desk.last_mistake:
                    line.put(("mistake", desk.last_mistake))
            self.send_response(200)
            self.send_header("Content-Type", "text/event-stream")
            self.send_header("Cache-Control", "no-store")
            self.send_header("Connection", "close")
            self.end_headers()
            self.close_connection = True
            try:
                while True:
                    try:
                        said = line.get(timeout=_ALIVE_S)
                    except queue.Empty:
                        self.wfile.write(b": still here\n\n")
                        self.wfile.flush()
                        continue
                    if said is None:
                        return
                    text = f"event: {said[0]}\ndata: {json.dumps(said[1])}\n\n"
                    self.wfile.write(text.encode())
                    self.wfile.flush()
            except OSError:
                pass  # the page was closed
            finally:
                with desk.lock:
                    desk.listeners.remove(line)

        def log_message(self, format: str, *args: object) -> None:
            """Nothing: the address holds the secret."""

    return Handler
