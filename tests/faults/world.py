"""The program as a process: started, signalled, limited, killed. Standard library only."""
import os
import pathlib
import resource
import shutil
import signal
import subprocess
import sys
import tempfile
import time
import unittest

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
from heights import write_heights  # noqa: E402, F401 — for whoever takes it from here

PROGRAM = os.path.abspath(sys.argv.pop(1))
ROOT = pathlib.Path(__file__).resolve().parents[2]
EXAMPLE = str(ROOT / "examples/skarrow-round.toml")


def run(*words, stdout=subprocess.PIPE, file_limit=None, env=None, timeout=120, cwd=None, before=None):
    """The finished process; `file_limit` in bytes as by ulimit -f."""
    def prepare():
        if file_limit is not None:
            resource.setrlimit(resource.RLIMIT_FSIZE, (file_limit, file_limit))
        if before:
            before()
    return subprocess.run([PROGRAM, *words], stdout=stdout, stderr=subprocess.PIPE, text=True, timeout=timeout,
                          env={**os.environ, **(env or {})}, preexec_fn=prepare, cwd=cwd)


def start(*words, **options):
    return subprocess.Popen([PROGRAM, *words], stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, **options)


def left_behind(folder):
    """Whatever is there that nobody asked for."""
    return sorted(str(p.relative_to(folder)) for p in pathlib.Path(folder).rglob("*") if ".new-" in str(p.relative_to(folder)))


def put_skarrow(path):
    """A copy of the demo ground that the suite made ($LODEWAY_SKARROW), or one of its own where there is none."""
    made = os.environ.get("LODEWAY_SKARROW")
    if made:
        shutil.copyfile(made, path)
        return
    done = run("ground", "demo", path)
    assert done.returncode == 0, done.stderr


class World(unittest.TestCase):
    """A folder of its own, and one demo ground for all."""
    _ground = None

    def setUp(self):
        self._folder = tempfile.TemporaryDirectory(prefix="lodeway-faults-")
        self.folder = pathlib.Path(self._folder.name)
        self.addCleanup(self._folder.cleanup)

    @classmethod
    def ground(cls):
        if World._ground is None:
            World._home = tempfile.TemporaryDirectory(prefix="lodeway-faults-ground-")
            path = World._home.name + "/skarrow.gpkg"
            put_skarrow(path)
            World._ground = path
        return World._ground

    def refused(self, done, *parts):
        """One line, status 2, with these words in it and no line breaks; answers the line."""
        self.assertEqual(done.returncode, 2, (done.stdout, done.stderr))
        self.assertTrue(done.stderr.startswith("lodeway: "), done.stderr)
        self.assertEqual(done.stderr.count("\n"), 1, done.stderr)
        self.assertNotIn(".new-", done.stderr, "no name that nobody gave")
        for part in parts:
            self.assertIn(part, done.stderr)
        return done.stderr
