"""A server to talk to, as the tests need it: started, asked, measured, killed. Standard library and jsonschema only."""
import http.client
import json
import os
import pathlib
import re
import shutil
import signal
import socket
import subprocess
import sys
import tempfile
import time
import unittest
import urllib.parse

import jsonschema

PROGRAM = os.path.abspath(sys.argv.pop(1)) if len(sys.argv) > 1 else "build/release/bin/lodeway-full"
SCHEMA = json.loads((pathlib.Path(__file__).resolve().parents[2] / "web/api.schema.json").read_text())


def checker(name):
    return jsonschema.Draft202012Validator({"$ref": f"#/$defs/{name}", "$defs": SCHEMA["$defs"]})


CHECKERS = {name: checker(name) for name in SCHEMA["$defs"]}


def answer_type(method, path):
    """The name of the answer's shape in the schema's list of endpoints."""
    plain = path.split("?")[0]
    best = None
    for m, pattern, _, answer, _ in SCHEMA["x-endpoints"]:
        pieces = re.escape(pattern.split("?")[0]).replace(r"\{", "{").replace(r"\}", "}")
        if m == method and re.fullmatch(re.sub(r"\{\w+\}", r"[^/]+", pieces), plain):
            if best is None or pattern.count("{") < best[1]:
                best = (answer, pattern.count("{"))
    if best is None:
        raise AssertionError(f"{method} {path} is not in the schema")
    return best[0]


class Server:
    """One run of the program on a state folder; the folder stays when the run is killed."""

    def __init__(self, state=None, *options, port=0, fells=False):
        self.folder = None if state else tempfile.TemporaryDirectory(prefix="lodeway-test-")
        self.state = state or self.folder.name
        if fells and "LODEWAY_SKARROW" in os.environ:  # made once for the whole suite
            os.makedirs(self.state + "/grounds", exist_ok=True)
            shutil.copyfile(os.environ["LODEWAY_SKARROW"], self.state + "/grounds/skarrow.gpkg")
        self.process = subprocess.Popen([PROGRAM, "serve", "--port", str(port), "--state", self.state, *options],
                                        stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)
        self.url = self.process.stdout.readline().strip()
        if not self.url.startswith("http://"):
            said = self.process.stderr.read()
            self.end()
            raise AssertionError("not served: " + said)
        parts = urllib.parse.urlsplit(self.url)
        self.host, self.port = parts.hostname, parts.port
        self.key = urllib.parse.parse_qs(parts.query)["key"][0]

    def raw(self, method, path, body=None, headers=None, timeout=60):
        """(status, headers, bytes) of one request on a connection of its own."""
        line = http.client.HTTPConnection(self.host, self.port, timeout=timeout)
        try:
            line.request(method, path, body, {"X-Key": self.key, **(headers or {})})
            answer = line.getresponse()
            return answer.status, {k.lower(): v for k, v in answer.getheaders()}, answer.read()
        finally:
            line.close()

    def call(self, method, path, body=None, expect=None, **headers):
        """Asks as the page does; the answer is held against the schema. Answers (status, json or bytes)."""
        sent = {"X-Lodeway": "1", "Sec-Fetch-Site": "same-origin", **headers}
        data = body
        if body is not None and not isinstance(body, (bytes, bytearray)):
            data = json.dumps(body)
            sent["Content-Type"] = "application/json"
        status, got, text = self.raw(method, path, data, sent)
        shape = "Conflict" if status == 409 and b'"newest"' in text else "Problem" if status >= 400 else answer_type(method, path)
        value = text
        if shape not in (None, "binary"):
            value = json.loads(text)
            faults = sorted(CHECKERS[shape].iter_errors(value), key=lambda e: len(e.path))
            if faults:
                raise AssertionError(f"{method} {path}: {shape}: {faults[0].json_path}: {faults[0].message[:300]}")
        if expect is not None and status != expect:
            raise AssertionError(f"{method} {path}: {status}, expected {expect}: {text[:300]}")
        return status, value

    def get(self, path):
        return self.call("GET", path, expect=200)[1]

    def post(self, path, body=None, expect=None):
        status, value = self.call("POST", path, {} if body is None else body)
        if status not in ((200, 201, 202) if expect is None else (expect,)):
            raise AssertionError(f"POST {path}: {status}: {value}")
        return value

    def wait(self, job, seconds=600):
        """The job when it is over."""
        until = time.time() + seconds
        while job["state"] in ("waiting", "running"):
            if time.time() > until:
                raise AssertionError(f"not over after {seconds} s: {job}")
            time.sleep(0.05)
            job = self.get("/api/jobs/" + job["id"])
        return job

    def done(self, job):
        job = self.wait(job)
        if job["state"] != "done":
            raise AssertionError(f"{job['kind']}: {job['state']}: {job['fault']}")
        return job

    def demo_ground(self):
        """The one that is there, or else one that is made now."""
        return self.get("/api/hello")["demo_ground_id"] or self.done(self.post("/api/grounds/demo"))["ground_id"]

    def alive(self):
        return self.process.poll() is None and self.get("/api/hello")["program"] == "lodeway"

    def memory_mib(self):
        """Resident memory, and the most it ever was."""
        text = pathlib.Path(f"/proc/{self.process.pid}/status").read_text()
        return tuple(int(re.search(key + r":\s+(\d+)", text)[1]) / 1024 for key in ("VmRSS", "VmHWM"))

    def kill(self):
        self.process.send_signal(signal.SIGKILL)
        self.end()

    def stop(self):
        """As by Ctrl-C; answers the exit status."""
        self.process.send_signal(signal.SIGINT)
        return self.end()

    def end(self):
        try:
            status = self.process.wait(30)
        finally:
            if self.process.poll() is None:
                self.process.kill()
            self.process.stdout.close()
            self.process.stderr.close()
        return status

    def close(self):
        if self.process.poll() is None:
            self.kill()
        if self.folder:
            self.folder.cleanup()


class LiveTest(unittest.TestCase):
    """One server for all tests of a class; `fells`: the demo ground lies there already."""
    fells = False

    @classmethod
    def setUpClass(cls):
        cls.server = Server(fells=cls.fells)

    @classmethod
    def tearDownClass(cls):
        cls.server.close()


def connect(server):
    line = socket.create_connection((server.host, server.port), timeout=20)
    return line


def main():
    unittest.main(verbosity=2)
