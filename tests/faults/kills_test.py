"""Killed at random moments, again and again: what was answered for is there and whole, what was not is not half there, nothing stays behind."""
import os
import pathlib
import random
import sqlite3
import sys
import threading
import time
import unittest

sys.path.insert(0, os.path.dirname(__file__))
sys.path.insert(0, os.path.join(os.path.dirname(__file__), "../server"))
from world import EXAMPLE, PROGRAM, World, left_behind, run, start, write_heights  # noqa: E402
sys.argv.insert(1, PROGRAM)
from live import Server  # noqa: E402

KILLS = int(os.environ.get("LODEWAY_KILLS", "10"))  # in all; script/faults does 300
SEED = int(os.environ.get("LODEWAY_SEED", "1"))


def share(part):
    return max(2, round(KILLS * part))


class Commands(World):
    def killed(self, outs, seconds, kills, *words):
        """Killed somewhere within `seconds`; what stands under `outs` is the old or the whole new."""
        dice = random.Random(SEED)
        cut = 0
        for _ in range(kills):
            for out in outs:
                (self.folder / out).parent.mkdir(exist_ok=True)
                (self.folder / out).write_bytes(b"what was there")
            process = start(*words, cwd=self.folder)
            time.sleep(dice.uniform(0, seconds))
            cut += process.poll() is None
            process.kill()
            process.communicate()
            for out in outs:
                data = (self.folder / out).read_bytes()
                if data == b"what was there":
                    continue
                if out.endswith(".pdf"):
                    self.assertTrue(data.startswith(b"%PDF") and data.rstrip().endswith(b"%%EOF"))
                else:
                    db = sqlite3.connect(f"file:{self.folder / out}?mode=ro", uri=True)
                    self.assertEqual(db.execute("PRAGMA integrity_check").fetchone()[0], "ok")
                    db.close()
        self.assertGreater(cut, 0, "some were killed before they were through")
        print(f"{words[0]}: {kills} kills, {cut} of them before it was through", file=sys.stderr)
        done = run(*words, cwd=self.folder)
        self.assertIn(done.returncode, (0, 3), done.stderr)
        self.assertEqual(left_behind(self.folder), [])

    def seconds(self, *words):
        begun = time.time()
        run(*words, cwd=self.folder)
        return time.time() - begun

    def test_a_ground_is_written(self):
        words = ("ground", "build", "g.gpkg", "--elevation", write_heights(self.folder, 200, 200), "--licence", "none", "--attribution", "none")
        self.killed(["g.gpkg"], self.seconds(*words), share(0.25), *words)

    def test_paper_is_drawn(self):
        words = ("paper", EXAMPLE, "--ground", self.ground(), "--out", "paper")
        self.killed(["paper/card.pdf"], self.seconds(*words), share(0.15), *words)


class Served(unittest.TestCase):
    def integrity(self, state):
        db = sqlite3.connect(os.path.join(state, "trips.sqlite"))
        self.assertEqual(db.execute("PRAGMA integrity_check").fetchone()[0], "ok")
        db.close()

    def test_saving(self):
        """A trip is edited all the time; no edit that was answered for is lost by a kill."""
        dice = random.Random(SEED)
        first = Server()
        server = first
        try:
            trip = server.post("/api/trips", {"ground_id": None, "zone": "Europe/Dublin"})
            answered, state = trip["revision"], trip["state"]
            for _ in range(share(0.3)):
                over = threading.Event()

                def edit():
                    nonlocal answered, state
                    while not over.is_set():
                        try:
                            got = server.post(f"/api/trips/{trip['id']}/changes",
                                              {"revision": answered, "changes": [{"path": "/document/party/size", "value": answered % 50 + 1}]})
                        except Exception:
                            return
                        answered, state = got["revision"], got["state"]
                editor = threading.Thread(target=edit)
                editor.start()
                time.sleep(dice.uniform(0.02, 0.3))
                server.kill()
                over.set()
                editor.join()
                self.integrity(first.state)
                server = Server(first.state)
                kept = server.get("/api/trips/" + trip["id"])
                self.assertIn(kept["revision"], (answered, answered + 1))
                if kept["revision"] == answered:
                    self.assertEqual(kept["state"], state)
                answered, state = kept["revision"], kept["state"]
            print(f"saving: {share(0.3)} kills, {answered} changes kept", file=sys.stderr)
        finally:
            server.close()
            first.close()

    def test_building_and_drawing(self):
        """Grounds and papers are made all the time; what a list names is whole, and nothing else lies there."""
        dice = random.Random(SEED)
        first = Server(fells=True)
        server = first
        papers = set()
        try:
            heights = os.path.join(first.state, write_heights(first.state, 300, 300))
            trip = server.post("/api/trips", {"ground_id": server.demo_ground(), "example": True})
            asked = {"revision": trip["revision"]}
            for turn in range(share(0.3)):
                if turn % 2:
                    server.done(server.post(f"/api/trips/{trip['id']}/ways", asked))
                    job = server.post(f"/api/trips/{trip['id']}/paper", {**asked, "way": "quick", "large_type": False})
                    until = time.time() + dice.uniform(0, 4)
                else:
                    job = server.post("/api/grounds/build", {"name": "again", "elevation": [{"path": heights}], "features": []})
                    until = time.time() + dice.uniform(0, 2)
                while time.time() < until and job["state"] in ("waiting", "running"):
                    time.sleep(0.02)
                    job = server.get("/api/jobs/" + job["id"])
                if job["kind"] == "paper" and job["state"] == "done":
                    papers.add(job["id"])
                server.kill()
                self.integrity(first.state)
                server = Server(first.state)
                known = {pathlib.Path(g["file"]).name for g in server.get("/api/grounds")["grounds"]}
                there = {p.name for p in pathlib.Path(first.state, "grounds").iterdir()}
                if there != known:  # the child that built may live a moment longer, and its file is its own till then
                    time.sleep(0.5)
                    server.kill()
                    server = Server(first.state)
                    there = {p.name for p in pathlib.Path(first.state, "grounds").iterdir()}
                self.assertEqual(there, known, "no ground half built, none lost")
                for g in server.get("/api/grounds")["grounds"]:
                    self.assertEqual(server.get("/api/grounds/" + g["id"])["id"], g["id"])
                for paper in papers:
                    for file in server.get("/api/papers/" + paper)["files"]:
                        status, _, data = server.raw("GET", file["url"])
                        self.assertEqual((status, len(data)), (200, file["size_bytes"]))
                drawn = {p.name for p in pathlib.Path(first.state, "papers").iterdir()}
                self.assertLessEqual(papers, drawn)
                for half in drawn - papers:  # finished, but nobody heard of it: whole too
                    self.assertTrue(pathlib.Path(first.state, "papers", half, "answer.json").exists())
                    papers.add(half)
                self.assertEqual(left_behind(first.state), [])
            print(f"building and drawing: {share(0.3)} kills, {len(papers)} papers and {len(known)} grounds kept", file=sys.stderr)
        finally:
            server.close()
            first.close()


if __name__ == "__main__":
    unittest.main(verbosity=1)
