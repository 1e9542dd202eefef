"""Debian's Firefox over WebDriver BiDi: the few calls that the rows need.

Firefox's own remote agent speaks the protocol; the test tool drives only a build of its own. Names and
shapes of the calls: W3C, WebDriver BiDi (session.new, browsingContext.navigate, script.evaluate).
"""

from __future__ import annotations

import json
import os
import re
import signal
import subprocess
from pathlib import Path
from threading import Thread
from typing import Any

from websockets.sync.client import ClientConnection, connect

PREFERENCES = {
    "browser.shell.checkDefaultBrowser": False,
    "browser.startup.homepage_override.mstone": "ignore",
    "browser.aboutwelcome.enabled": False,
    "datareporting.policy.dataSubmissionEnabled": False,
    "toolkit.telemetry.reportingpolicy.firstRun": False,
    "app.update.enabled": False,
    "app.normandy.enabled": False,
    "services.settings.server": "data:,#remote-settings-dummy/v1",
    "network.captive-portal-service.enabled": False,
    "network.connectivity-service.enabled": False,
    "browser.safebrowsing.downloads.remote.enabled": False,
    "extensions.getAddons.cache.enabled": False,
    "remote.active-protocols": 1,
}
"""Nothing that asks another host, nothing that stands before the page."""

LISTENS = re.compile(r"WebDriver BiDi listening on (ws://\S+)")


class Firefox:
    """A Firefox on a profile folder, with one page."""

    def __init__(self, profile: Path, **preferences: object) -> None:
        profile.mkdir(exist_ok=True)
        chosen = PREFERENCES | preferences
        lines = [f"user_pref({json.dumps(k)}, {json.dumps(v)});\n" for k, v in chosen.items()]
        (profile / "user.js").write_text("".join(lines))
        command = ["firefox-esr", "--headless", "--no-remote", "--profile", str(profile)]
        self.process = subprocess.Popen(
            [*command, "--remote-debugging-port", "0"],
            stderr=subprocess.PIPE,
            stdout=subprocess.DEVNULL,
            text=True,
            start_new_session=True,
            env=os.environ | {"HOME": str(profile), "MOZ_DISABLE_CONTENT_SANDBOX": "1"},
        )
        self._last = 0
        try:
            self._wire, self.page = self._connected()
        except BaseException:
            self.kill()
            raise

    def _connected(self) -> tuple[ClientConnection, str]:
        self._wire = connect(f"{self._address()}/session", max_size=None, open_timeout=120)
        self.ask("session.new", capabilities={})
        [page] = self.ask("browsingContext.getTree")["contexts"]
        return self._wire, page["context"]

    def _address(self) -> str:
        assert self.process.stderr
        for line in self.process.stderr:
            if found := LISTENS.search(line):
                # Else it would stand still once it had said more than the pipe holds.
                Thread(target=self.process.stderr.read, daemon=True).start()
                return found[1]
        raise RuntimeError("Firefox ended before it listened.")

    def ask(self, method: str, **params: object) -> dict[str, Any]:
        """One command and its result; events are passed over. Raises RuntimeError with its error."""
        self._last += 1
        self._wire.send(json.dumps({"id": self._last, "method": method, "params": params}))
        while True:
            told = json.loads(self._wire.recv(timeout=120))
            if told.get("id") == self._last:
                if told["type"] == "error":
                    raise RuntimeError(told["message"])
                result: dict[str, Any] = told["result"]
                return result

    def goto(self, address: str) -> None:
        self.ask("browsingContext.navigate", context=self.page, url=address, wait="complete")

    def evaluate(self, expression: str) -> Any:
        """The value of an expression, awaited, by way of JSON. Raises RuntimeError with its exception."""
        text = f"Promise.resolve({expression}).then((value) => JSON.stringify(value ?? null))"
        told = self.ask(
            "script.evaluate", expression=text, target={"context": self.page}, awaitPromise=True
        )
        if told["type"] != "success":
            raise RuntimeError(told["exceptionDetails"]["text"])
        return json.loads(told["result"]["value"])

    def kill(self) -> None:
        """End all its processes at once: they are of one session of their own."""
        os.killpg(self.process.pid, signal.SIGKILL)
        self.process.wait()

    def close(self) -> None:
        self.ask("browser.close")
        self.process.wait(timeout=60)
