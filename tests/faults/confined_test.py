"""What a process that reads strangers' files cannot do: no network, no writing outside its folder, no more than its time."""
import ctypes
import os
import signal
import sys
import unittest

sys.path.insert(0, os.path.dirname(__file__))
from world import EXAMPLE, World, run, write_heights  # noqa: E402

LANDLOCK = ctypes.CDLL(None, use_errno=True).syscall(444, None, 0, 1) >= 1  # landlock_create_ruleset, its version


class Confined(World):
    def confined(self, *words, **more):
        (self.folder / "own").mkdir(exist_ok=True)
        return run(*words, env={"LODEWAY_CONFINED_TO": str(self.folder / "own"), "TMPDIR": str(self.folder / "own"), **more}, cwd=self.folder)

    def build(self, out):
        return ("ground", "build", out, "--elevation", write_heights(self.folder), "--licence", "none", "--attribution", "none")

    def test_it_writes_to_its_folder(self):
        done = self.confined(*self.build("own/g.gpkg"))
        self.assertEqual(done.returncode, 0, done.stderr)
        self.assertTrue((self.folder / "own/g.gpkg").exists())

    @unittest.skipUnless(LANDLOCK, "SKIPPED: this kernel has no Landlock")
    def test_and_to_no_other(self):
        (self.folder / "g.gpkg").write_text("what was there")
        self.refused(self.confined(*self.build("g.gpkg")), "g.gpkg: could not be written")
        self.assertEqual((self.folder / "g.gpkg").read_text(), "what was there")
        self.refused(self.confined("paper", EXAMPLE, "--ground", self.ground(), "--out", "paper"))
        self.assertFalse((self.folder / "paper").exists())

    def test_it_has_no_network(self):
        self.refused(self.confined("serve", "--port", "0", "--state", str(self.folder / "own/state")), "port")
        self.assertEqual(run("--version").returncode, 0)

    def test_it_does_nothing_for_who_is_gone(self):
        """Its server was killed while it began."""
        done = self.confined(*self.build("own/g.gpkg"), LODEWAY_CONFINED_FOR="1")
        self.assertEqual((done.returncode, list((self.folder / "own").iterdir())), (2, []))
        self.assertEqual(self.confined(*self.build("own/g.gpkg"), LODEWAY_CONFINED_FOR=str(os.getpid())).returncode, 0)

    def test_it_has_its_time_and_no_more(self):
        done = self.confined("rehearse", EXAMPLE, "--ground", self.ground(), "--walkers", "1000000", LODEWAY_CONFINED_S="1")
        self.assertIn(done.returncode, (-signal.SIGXCPU, -signal.SIGKILL), done.stderr)


if __name__ == "__main__":
    unittest.main(verbosity=1)
