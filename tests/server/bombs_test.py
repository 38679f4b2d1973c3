"""Bodies that are small and cost much to understand: bounded, quickly refused, and nobody else waits for them."""
import contextlib
import json
import math
import os
import pathlib
import sys
import tempfile
import threading
import time

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), "../faults"))
from heights import write_heights  # noqa: E402
from live import LiveTest, main
from slow import SLOW

MOST_WAIT = 0.3  # seconds that anybody else's question may take meanwhile
MOST_COST = 2.0  # seconds that the refusal may take


class Bombs(LiveTest):
    fells = True

    @contextlib.contextmanager
    def while_another_asks(self):
        """Another user asks again and again meanwhile, and does not wait."""
        waits, over = [], threading.Event()

        def other():
            while not over.is_set():
                begun = time.time()
                self.server.raw("GET", "/api/hello")
                waits.append(time.time() - begun)
                time.sleep(0.01)
        asker = threading.Thread(target=other)
        asker.start()
        try:
            yield
        finally:
            over.set()
            asker.join()
        self.assertLess(max(waits), MOST_WAIT * SLOW, "the others do not wait")

    def thrown(self, method, path, body, expect=(400, 413, 422), **headers):
        """Sends it while another user asks again and again; answers what was said of it."""
        if not isinstance(body, bytes):
            body = json.dumps(body).encode()
        with self.while_another_asks():
            begun = time.time()
            status, got = self.server.call(method, path, body, **headers)
            took = time.time() - begun
        self.assertIn(status, expect, str(got)[:300])
        self.assertLess(took, MOST_COST * SLOW, "it is refused soon")
        if status >= 400:
            self.assertLess(len(got["fault"]["message"]), 400)
        return got

    def trip(self):
        return self.server.post("/api/trips", {"ground_id": None, "zone": "Europe/Dublin"})

    def test_many_keys(self):
        keys = {f"k{i}": 1 for i in range(50000)}
        self.thrown("POST", "/api/trips", keys)
        self.thrown("POST", "/api/trips", {"ground_id": None, "zone": "Europe/Dublin", "document": {"party": keys}})
        trip = self.trip()
        self.thrown("POST", f"/api/trips/{trip['id']}/changes",
                    {"revision": trip["revision"], "changes": [{"path": "/document/party", "value": keys}]})
        self.thrown("POST", "/api/party/learn", {"as_set": keys})

    def test_deep_and_long_json(self):
        for body in (b'{"a":' * 200000 + b"1" + b"}" * 200000, b'{"a":' + b"[" * 400000, b'{"a":"' + b"\\u0041" * 150000 + b'"}',
                     b'{"a":' + b"9" * 900000 + b"}", b'{"a":[' + b"0," * 450000 + b"0]}", b"{" + b'"a":1,' * 150000 + b'"a":1}'):
            with self.subTest(body[:10]):
                self.thrown("POST", "/api/trips", body, expect=(201, 400, 413))  # a long text under a key that nobody reads is passed over

    def test_keys_added_one_by_one(self):
        trip = self.trip()
        changes = [{"path": f"/document/party/k{i}", "value": 1} for i in range(20000)]
        self.thrown("POST", f"/api/trips/{trip['id']}/changes", {"revision": trip["revision"], "changes": changes})

    def test_values_of_another_sort(self):
        """A name that is a number is kept as it was typed, and the list of trips still answers."""
        for name in (5, [1], {"a": 1}, True, None):
            body = json.dumps({"ground_id": None, "document": {"name": name, "date": name}}).encode()
            status, _, text = self.server.raw("POST", "/api/trips", body, {"X-Lodeway": "1", "Sec-Fetch-Site": "same-origin"})
            self.assertEqual(status, 201, text)
            trip = json.loads(text)
            self.assertTrue(trip["faults"])
            self.assertIn(trip["id"], [t["id"] for t in self.server.get("/api/trips")["trips"]])
        trip = self.trip()
        for revision in (1e300, -1e300, 1.5, "1", None, 2**63, -2**63):
            self.server.call("POST", f"/api/trips/{trip['id']}/undo", {"revision": revision}, expect=400 if not isinstance(revision, int) or revision == 2**63 else None)

    def test_many_points_and_long_rings(self):
        points = [{"at": f"{481000 + i % 1000} {6050000 + i // 1000}"} for i in range(20000)]
        trip = self.server.post("/api/trips", {"ground_id": self.server.demo_ground(), "example": True})
        path = f"/api/trips/{trip['id']}/changes"
        ring = [f"{481000 + i % 1000} {6050000 + i // 1000}" for i in range(30000)]
        crossing = [f"{481000 + (i % 2) * 900} {6050000 + i % 977}" for i in range(30000)]
        for where, value in (("/document/point", points), ("/document/avoid", [{"name": "x", "ring": ring}]),
                             ("/document/avoid", [{"name": "x", "ring": crossing}])):
            with self.subTest(where):
                got = self.thrown("POST", path, {"revision": trip["revision"], "changes": [{"path": where, "value": value}]},
                                  expect=(200, 400, 413))
                if "faults" in got:  # kept as it was typed, and said what is wrong with it
                    self.assertTrue(got["faults"])
                    trip = got

    def test_rings_of_a_million_points(self):
        """In a file that a ground is to be built of: built or refused, by the child that reads it."""
        n = 1_000_000
        turn = [2 * math.pi * i / n for i in range(n)]

        def ring(points):
            text = ",".join("[%.7f,%.7f]" % p for p in points)
            return ('{"type":"FeatureCollection","features":[{"type":"Feature","properties":{"natural":"water"},'
                    '"geometry":{"type":"Polygon","coordinates":[[' + text + "," + text[:text.index("]") + 1] + "]]}}]}")
        with tempfile.TemporaryDirectory(prefix="lodeway-bombs-") as folder:
            heights = os.path.join(folder, write_heights(folder))
            for name, points in (
                    ("round", [(-8.496 + 0.003 * math.cos(a), 54.004 + 0.003 * math.sin(a)) for a in turn]),
                    # each side crosses nearly every other one
                    ("crossing", [(-8.499 + 0.006 * (i % 2), 54.001 + 0.006 * ((i * 7919) % n) / n) for i in range(n)])):
                with self.subTest(name):
                    features = pathlib.Path(folder, name + ".geojson")
                    features.write_text(ring(points))
                    with self.while_another_asks():
                        job = self.server.post("/api/grounds/build", {"name": name, "elevation": [{"path": heights}],
                                                                      "features": [{"path": str(features)}]})
                        begun = time.time()
                        job = self.server.wait(job)
                    self.assertIn(job["state"], ("done", "failed"))
                    self.assertLess(time.time() - begun, 30 * SLOW)
                    self.assertTrue(self.server.alive())

    def test_tracks_of_a_million_points(self):
        head = '<?xml version="1.0"?><gpx version="1.1" creator="t" xmlns="http://www.topografix.com/GPX/1/1">'
        points = "".join(f'<trkpt lat="54.{i % 1000:03}" lon="-9.{i // 1000:03}"/>' for i in range(1_000_000))
        track = f"{head}<trk><trkseg>{points}</trkseg></trk></gpx>"
        self.assertLess(len(track), 48 << 20)
        with self.while_another_asks():
            got = self.server.call("POST", "/api/party/learn", {"tracks": [{"name": "a.gpx", "gpx": track}]})
        self.assertIn(got[0], (200, 400, 413), str(got[1])[:300])
        with self.while_another_asks():
            status, _, body = self.server.raw("POST", "/api/uploads?name=a.gpx", track.encode(), {"X-Lodeway": "1"})
            self.assertEqual(status, 200, body)
            got = self.server.call("POST", "/api/bring", {"upload": json.loads(body)["id"], "ground_id": self.server.demo_ground()})
        self.assertIn(got[0], (200, 400, 413), str(got[1])[:300])


if __name__ == "__main__":
    main()
