"""The English server that the tests ask: assemble it, start it, stop it.

    python tests/languagetool/server.py assemble FOLDER    Maven copies the jars into FOLDER (97 MB)
    python tests/languagetool/server.py start FOLDER       starts it, waits until it answers, prints its address
    python tests/languagetool/server.py stop FOLDER        ends it

FOLDER is laid out as language-tool-python expects it, so that LTP_PATH=FOLDER serves the tests of `--english local`.
Needs Java 17 and, to assemble, Maven. Tests find the server by HORNBOOK_TEST_ENGLISH (its address) and the installation
by LTP_PATH; without HORNBOOK_TEST_ENGLISH they skip, and with HORNBOOK_TEST_ENGLISH_REQUIRED=1 they fail instead.
"""

import contextlib
import os
import shutil
import signal
import socket
import subprocess
import sys
import time
import urllib.error
import urllib.parse
import urllib.request
import zipfile
from pathlib import Path

RELEASE = "6.8"
POM = Path(__file__).with_name("pom.xml")
WITHIN = 90.0  # seconds
_DIRECT = urllib.request.build_opener(urllib.request.ProxyHandler({}))


def assemble(folder: Path) -> None:
    """Lay out an installation in a folder, unless it is there already."""
    home = folder / f"LanguageTool-{RELEASE}"
    if (home / "languagetool-server.jar").exists():
        return
    maven = shutil.which("mvn") or sys.exit("Maven (mvn) is needed to assemble the English server.")
    libs = home / "libs"
    copy = [maven, "-q", "-B", "-f", str(POM), "dependency:copy-dependencies", f"-DoutputDirectory={libs.resolve()}"]
    subprocess.run(copy, check=True)
    jars = sorted(f"libs/{jar.name}" for jar in libs.glob("*.jar"))
    with zipfile.ZipFile(home / "languagetool-server.jar", "w") as jar:
        jar.writestr("META-INF/MANIFEST.MF", f"Manifest-Version: 1.0\r\n{folded('Class-Path: ' + ' '.join(jars))}\r\n")


def folded(line: str) -> str:
    """A line of a jar's manifest: at most 72 bytes a line, the next begin with a space (JAR File Specification)."""
    pieces = [line[:72], *(line[at : at + 71] for at in range(72, len(line), 71))]
    return "\r\n ".join(pieces) + "\r\n"


def start(folder: Path) -> str:
    """Start the server and wait until it has checked a first sentence in each variety; its address."""
    java = shutil.which("java") or sys.exit("Java 17 is needed to run the English server.")
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port = probe.getsockname()[1]
    jar = folder / f"LanguageTool-{RELEASE}" / "languagetool-server.jar"
    command = [java, "-Xmx1g", "-Dsun.net.httpserver.nodelay=true", "-cp", str(jar)]
    with (folder / "server.log").open("wb") as log:
        server = subprocess.Popen(
            [*command, "org.languagetool.server.HTTPServer", "-p", str(port)],
            stdin=subprocess.DEVNULL,
            stdout=log,
            stderr=subprocess.STDOUT,
            start_new_session=True,
        )
    (folder / "server.pid").write_text(str(server.pid))
    address = f"http://127.0.0.1:{port}"
    for variety in ("en-GB", "en-US"):
        wait_for(server, address, variety, folder / "server.log")
    return address


def wait_for(server: "subprocess.Popen[bytes]", address: str, variety: str, log: Path) -> None:
    """Wait until the server answers, or stop the run with its last words."""
    data = urllib.parse.urlencode({"language": variety, "text": "Hello."}).encode()
    until = time.monotonic() + WITHIN
    while time.monotonic() < until:
        if server.poll() is not None:
            break
        try:
            with _DIRECT.open(f"{address}/v2/check", data, timeout=30) as reply:
                reply.read()
                return
        except (urllib.error.URLError, OSError):
            time.sleep(0.2)
    sys.exit("The English server did not start:\n" + log.read_text(errors="replace")[-2000:])


def stop(folder: Path) -> None:
    """End the server that was started in this folder."""
    pid = folder / "server.pid"
    if pid.exists():
        with contextlib.suppress(ProcessLookupError):
            os.kill(int(pid.read_text()), signal.SIGKILL)
        pid.unlink()


def main(arguments: list[str]) -> None:
    what, folder = arguments
    place = Path(folder)
    place.mkdir(parents=True, exist_ok=True)
    if what == "start":
        print(start(place))
    else:
        {"assemble": assemble, "stop": stop}[what](place)


if __name__ == "__main__":
    main(sys.argv[1:])
