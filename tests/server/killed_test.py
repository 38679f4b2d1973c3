"""Killed in the middle and begun again: what was answered for is there. Two tabs lose nothing."""
import json
import threading
import time
import unittest

from live import LiveTest, Server, main
from slow import SLOW


class Killed(unittest.TestCase):
    def test_trip_survives(self):
        server = Server()
        try:
            ground = server.demo_ground()
            trip = server.post("/api/trips", {"ground_id": ground, "example": True})
            run = server.get("/api/hello")["run"]
            answered = 0
            def edit():
                nonlocal answered, trip
                try:
                    for size in range(1, 10000):
                        trip = server.post(f"/api/trips/{trip['id']}/changes",
                                           {"revision": trip["revision"], "changes": [{"path": "/document/party/size", "value": size % 50 + 1}]})
                        answered = trip["revision"]
                except (OSError, AssertionError, ValueError):
                    pass
            editor = threading.Thread(target=edit)
            editor.start()
            while answered < 20:
                time.sleep(0.01)
            server.kill()
            editor.join()
            again = Server(server.state)
            try:
                kept = again.get("/api/trips/" + trip["id"])
                self.assertGreaterEqual(kept["revision"], answered)
                self.assertLessEqual(kept["revision"], answered + 1)  # the one under way may have been kept too
                if kept["revision"] == answered:
                    self.assertEqual(kept["state"], trip["state"])
                self.assertEqual(kept["faults"], [])
                self.assertTrue(kept["can_undo"])
                self.assertNotEqual(again.get("/api/hello")["run"], run)
                self.assertEqual(again.get("/api/hello")["demo_ground_id"], ground)
                back = again.post(f"/api/trips/{trip['id']}/undo", {"revision": kept["revision"]})
                self.assertEqual(back["revision"], kept["revision"] + 1)
            finally:
                self.assertEqual(again.stop(), 0)
        finally:
            server.close()

    def test_paper_and_rehearsal_are_there_when_it_is_begun_again(self):
        """Ended as it should be, and killed: the links of a window that was open all the time lead where they led."""
        server = Server(fells=True)
        again = None
        try:
            trip = server.post("/api/trips", {"ground_id": server.demo_ground(), "example": True})
            asked = {"revision": trip["revision"], "way": "quick"}
            server.done(server.post(f"/api/trips/{trip['id']}/ways", {"revision": trip["revision"]}))
            made = [server.done(server.post(f"/api/trips/{trip['id']}/{what}", {**asked, **more}))["result_url"]
                    for what, more in (("rehearsal", {"walkers": 500, "seed": 3}), ("paper", {}))]
            before = [server.get(url) for url in made]
            links = [before[0]["density"]["url"], before[1]["files"][0]["url"], next(f["pages"] for f in before[1]["files"] if f["pages"])[0]["preview_url"]]
            held = [server.raw("GET", link)[2] for link in links]
            for end in (server.stop, lambda: again.kill()):
                end()
                again = Server(server.state)
                self.assertEqual([again.get(url) for url in made], before)
                self.assertEqual([again.raw("GET", link)[2] for link in links], held)
            for dead in ("/api/papers/0", made[1] + "0", made[0] + "0", links[1] + "0"):
                status, _, text = again.raw("GET", dead)
                self.assertEqual(status, 404, dead)
                self.assertTrue(json.loads(text)["fault"]["message"], "and says what is not there")
        finally:
            if again:
                again.close()
            server.close()

    def test_it_ends_within_half_a_second_whatever_it_does(self):
        for what in ("ways", "rehearsal", "demo"):
            server = Server(fells=True)
            try:
                trip = server.post("/api/trips", {"ground_id": server.demo_ground(), "example": True})
                asked = {"revision": trip["revision"]}
                if what == "rehearsal":
                    server.done(server.post(f"/api/trips/{trip['id']}/ways", asked))
                    server.post(f"/api/trips/{trip['id']}/rehearsal", {**asked, "way": "quick", "walkers": 100_000, "seed": 1})
                else:
                    server.post("/api/grounds/demo" if what == "demo" else f"/api/trips/{trip['id']}/ways", asked if what == "ways" else None)
                time.sleep(0.3)
                begun = time.time()
                server.stop()
                self.assertLess(time.time() - begun, 0.5 * SLOW, what)
            finally:
                server.close()

    def test_second_server_on_the_same_port_says_so(self):
        server = Server()
        try:
            with self.assertRaisesRegex(AssertionError, "expected one that is free"):
                Server(port=server.port)
        finally:
            server.close()


class TwoTabs(LiveTest):
    def setUp(self):
        self.trip = self.server.post("/api/trips", {"ground_id": None, "zone": "Europe/Dublin"})

    def change(self, revision, expect, *changes):
        return self.server.call("POST", f"/api/trips/{self.trip['id']}/changes",
                                {"revision": revision, "changes": [{"path": p, "value": v} for p, v in changes]}, expect=expect)[1]

    def test_different_things_are_merged(self):
        r = self.trip["revision"]
        self.change(r, 200, ("/document/party/size", 4))
        merged = self.change(r, 200, ("/document/party/skill", "expert"), ("/document/name", "Round"))
        self.assertEqual(merged["state"]["document"]["party"], {"size": 4, "skill": "expert"})
        self.assertEqual(merged["state"]["document"]["name"], "Round")

    def test_the_same_thing_is_a_conflict_and_nothing_is_lost(self):
        r = self.trip["revision"]
        first = self.change(r, 200, ("/document/party/size", 4))
        clash = self.change(r, 409, ("/document/party/size", 5))
        self.assertEqual(clash["contested"], ["/document/party/size"])
        self.assertEqual(clash["newest"]["state"], first["state"])
        self.change(r, 409, ("/document/party", {"size": 9}))
        self.assertEqual(self.change(clash["newest"]["revision"], 200, ("/document/party/size", 5))["state"]["document"]["party"]["size"], 5)

    def test_undo_redo_over_what_another_tab_did(self):
        r = self.trip["revision"]
        a = self.change(r, 200, ("/document/name", "A"))
        b = self.change(a["revision"], 200, ("/document/name", "B"))
        path = f"/api/trips/{self.trip['id']}"
        self.server.call("POST", path + "/undo", {"revision": a["revision"]}, expect=409)
        back = self.server.post(path + "/undo", {"revision": b["revision"]})
        self.assertEqual((back["state"]["document"]["name"], back["can_redo"]), ("A", True))
        forth = self.server.post(path + "/redo", {"revision": back["revision"]})
        self.assertEqual((forth["state"]["document"]["name"], forth["can_redo"]), ("B", False))
        back = self.server.post(path + "/undo", {"revision": forth["revision"]})
        self.change(forth["revision"], 409, ("/document/name", "C"))  # the undo touched the name
        new = self.change(back["revision"], 200, ("/document/start", "08:00"))
        self.assertFalse(new["can_redo"])
        for _ in range(2):
            new = self.server.post(path + "/undo", {"revision": new["revision"]})
        self.assertFalse(new["can_undo"])
        self.server.call("POST", path + "/undo", {"revision": new["revision"]}, expect=400)

    def test_odd_changes_are_refused(self):
        r = self.trip["revision"]
        for path in ("document/name", "/document", "/nothing", "/id", "/document/~2", "/document/date/x", "", "/document/a/b/c/d/e/f/g/h/i"):
            self.change(r, 400, (path, 1))
        self.change(r, 200, ("/document/point", [{"at": "1 2"}]))
        self.change(r + 1, 400, ("/document/point/0/at", "2 3"))
        self.change(r + 1, 413, ("/document/name", "x" * 400000))
        self.change(r + 1, 400)
        self.change(r + 99, 400, ("/document/name", "x"))
        self.assertEqual(self.server.get("/api/trips/" + self.trip["id"])["revision"], r + 1)


if __name__ == "__main__":
    main()
