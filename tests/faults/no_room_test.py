"""A disk that is full, may only be read or is broken at each single moment of writing: said in one line, nothing half there, what was there stays."""
import os
import pathlib
import random
import sqlite3
import sys
import unittest

sys.path.insert(0, os.path.dirname(__file__))
sys.path.insert(0, os.path.join(os.path.dirname(__file__), "../server"))
from world import EXAMPLE, PROGRAM, World, left_behind, run, write_heights  # noqa: E402

LIBRARY = os.path.abspath(sys.argv.pop(1))
sys.argv.insert(1, PROGRAM)
from live import Server  # noqa: E402
MOMENTS = int(os.environ.get("LODEWAY_MOMENTS", "1"))  # tried of each command; all of them by script/faults


def whole(path):
    """Is this file what its name says, from its first byte to its last?"""
    data = pathlib.Path(path).read_bytes()
    if path.suffix == ".gpkg":
        db = sqlite3.connect(f"file:{path}?mode=ro", uri=True)
        try:
            return db.execute("PRAGMA integrity_check").fetchone()[0] == "ok" and db.execute("SELECT count(*) FROM gpkg_contents").fetchone()[0] > 0
        finally:
            db.close()
    if path.suffix == ".pdf":
        return data.startswith(b"%PDF") and data.rstrip().endswith(b"%%EOF")
    if path.suffix == ".png":
        return data.startswith(b"\x89PNG") and data.endswith(b"IEND\xaeB`\x82")
    if path.suffix == ".gpx":
        return data.rstrip().endswith(b"</gpx>")
    return len(data) > 0


class NoRoom(World):
    def moments(self, *words):
        count = self.folder / "count"
        done = run(*words, env={"LD_PRELOAD": LIBRARY, "NO_ROOM_COUNT": str(count)}, cwd=self.folder)
        self.assertIn(done.returncode, (0, 3), done.stderr)
        n = int(count.read_text())
        count.unlink()
        self.assertGreater(n, 2, "it writes something")
        return n

    def tried(self, outs, *words):
        """Each of `outs` (names within the folder) was there before, as somebody's own words."""
        n = self.moments(*words)
        some = sorted(random.Random(1).sample(range(1, n + 1), min(MOMENTS, n)) + [1, n])
        for at in some:
            for on in ({}, {"NO_ROOM_FROM": "1"}):
                with self.subTest(words[0], at=at, of=n, on=bool(on)):
                    before = {}
                    for out in outs:
                        path = self.folder / out
                        path.parent.mkdir(exist_ok=True)
                        path.write_bytes(b"what was there")
                        before[path] = True
                    done = run(*words, env={"LD_PRELOAD": LIBRARY, "NO_ROOM_AT": str(at), **on}, cwd=self.folder)
                    self.assertIn(done.returncode, (0, 2, 3), done.stderr)
                    if done.returncode == 2:
                        self.refused(done)
                    for path in before:
                        if path.read_bytes() != b"what was there":
                            self.assertTrue(whole(path), path)
                        else:
                            self.assertEqual(done.returncode, 2, f"{path} was not written, and nothing was said")
                    self.assertEqual(left_behind(self.folder), [])

    def test_a_ground(self):
        heights = write_heights(self.folder)
        self.tried(["g.gpkg"], "ground", "build", "g.gpkg", "--elevation", heights, "--licence", "none", "--attribution", "none")

    def test_paper(self):
        self.tried(["paper/card.pdf"], "paper", EXAMPLE, "--ground", self.ground(), "--out", "paper")

    def test_a_route(self):
        self.tried(["way.gpx"], "way", EXAMPLE, "--ground", self.ground(), "--gpx", "way.gpx")


class Clock(unittest.TestCase):
    """The time of day jumps a year back and forth: nothing is taken for old that is not."""

    def server_at(self, years, state):
        os.environ.update(LD_PRELOAD=LIBRARY, NO_ROOM_CLOCK=str(years * 31557600))
        try:
            return Server(state)
        finally:
            del os.environ["LD_PRELOAD"], os.environ["NO_ROOM_CLOCK"]

    def test_a_year_back_and_forth(self):
        first = Server(fells=True)
        server = first
        try:
            trip = server.post("/api/trips", {"ground_id": server.demo_ground(), "example": True})
            papers = []
            for years in (-1, 1, -2, 0):
                self.assertEqual(server.stop(), 0)
                server = self.server_at(years, first.state)
                kept = server.get("/api/trips/" + trip["id"])
                self.assertEqual((kept["revision"], kept["state"]), (trip["revision"], trip["state"]))
                trip = server.post(f"/api/trips/{trip['id']}/changes",
                                   {"revision": trip["revision"], "changes": [{"path": "/document/party/size", "value": 5 + years}]})
                asked = {"revision": trip["revision"]}
                server.done(server.post(f"/api/trips/{trip['id']}/ways", asked))
                papers.append(server.done(server.post(f"/api/trips/{trip['id']}/paper", {**asked, "way": "quick", "large_type": False}))["id"])
                for paper in papers:
                    self.assertTrue(server.get("/api/papers/" + paper)["files"])
        finally:
            server.close()
            first.close()


if __name__ == "__main__":
    unittest.main(verbosity=1)
