"""An installed Firefox, driven by its own remote control: a socket that takes lines of JSON.

What drives Chromium here drives no Firefox as it comes. This does, with nothing to install besides.
"""

from __future__ import annotations

import json
import shutil
import socket
import subprocess
import time
from pathlib import Path
from types import TracebackType
from typing import Any

PROGRAM = shutil.which("firefox-esr") or shutil.which("firefox")
PREFERENCES = """
user_pref("marionette.port", {port});
user_pref("browser.shell.checkDefaultBrowser", false);
user_pref("datareporting.policy.dataSubmissionEnabled", false);
user_pref("toolkit.telemetry.enabled", false);
user_pref("app.update.enabled", false);
user_pref("network.proxy.type", 1);
user_pref("network.proxy.http", "127.0.0.1");
user_pref("network.proxy.http_port", 9);
user_pref("network.proxy.ssl", "127.0.0.1");
user_pref("network.proxy.ssl_port", 9);
"""
"""Its port, and no way out: pages come from disk."""
PATIENCE = 120.0
"""Longest wait in seconds for it to begin, or to answer."""
ELEMENT = "element-6066-11e4-a52e-4f735466cecf"
"""The key under which the protocol (W3C WebDriver) names an element."""


class Firefox:
    """One window without a screen, from a fresh profile."""

    def __init__(self, folder: Path, size: tuple[int, int]) -> None:
        with socket.socket() as free:
            free.bind(("127.0.0.1", 0))
            port = free.getsockname()[1]
        (folder / "user.js").write_text(PREFERENCES.format(port=port), encoding="utf-8")
        assert PROGRAM
        self._process = subprocess.Popen(
            [PROGRAM, "--headless", "--no-remote", "--marionette", "--profile", str(folder),
             f"--width={size[0]}", f"--height={size[1]}"],
            stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
        )  # fmt: skip
        self._socket = self._connected(port)
        self._kept = b""
        self._last = 0
        self._message()  # it says first what it is
        self.send("WebDriver:NewSession", capabilities={"alwaysMatch": {}})
        self.send("WebDriver:SetWindowRect", width=size[0], height=size[1])

    def _connected(self, port: int) -> socket.socket:
        end = time.monotonic() + PATIENCE
        while True:
            try:
                return socket.create_connection(("127.0.0.1", port), timeout=PATIENCE)
            except OSError:
                if time.monotonic() > end or self._process.poll() is not None:
                    self._process.kill()
                    raise
                time.sleep(0.2)

    def _message(self) -> Any:
        while b":" not in self._kept:
            self._kept += self._socket.recv(65536)
        length, _, rest = self._kept.partition(b":")
        while len(rest) < int(length):
            rest += self._socket.recv(65536)
        self._kept = rest[int(length) :]
        return json.loads(rest[: int(length)])

    def send(self, command: str, **given: Any) -> Any:
        """Send a command; what it answers."""
        self._last += 1
        text = json.dumps([0, self._last, command, given]).encode()
        self._socket.sendall(f"{len(text)}:".encode() + text)
        _, number, error, answer = self._message()
        assert number == self._last
        assert error is None, error
        return answer["value"] if isinstance(answer, dict) and "value" in answer else answer

    def open(self, address: str) -> None:
        """Open a page."""
        self.send("WebDriver:Navigate", url=address)

    def run(self, script: str, *given: Any) -> Any:
        """What a script in the page returns."""
        return self.send("WebDriver:ExecuteScript", script=script, args=list(given))

    def press(self, css: str) -> None:
        """A click where the pointer would be, on the first of what is there."""
        found = self.send("WebDriver:FindElement", using="css selector", value=css)
        self.send("WebDriver:ElementClick", id=found[ELEMENT])

    def wait(self, script: str) -> Any:
        """Wait until a script in the page returns something that is true."""
        end = time.monotonic() + PATIENCE
        while time.monotonic() < end:
            found = self.run(script)
            if found:
                return found
            time.sleep(0.1)
        raise AssertionError(f"not within {PATIENCE} s: {script}")

    def __enter__(self) -> Firefox:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:  # fmt: skip
        self._socket.close()
        self._process.terminate()
        try:
            self._process.wait(20)
        except subprocess.TimeoutExpired:
            self._process.kill()
