"""The whole job as the page does it, every answer held against the schema; and faults in the leader's words."""
import datetime
import json
import math
import pathlib
import subprocess
import tempfile
import threading
import time
import zoneinfo

from live import CHECKERS, PROGRAM, LiveTest, connect, main


class WholeJob(LiveTest):
    @classmethod
    def setUpClass(cls):
        super().setUpClass()
        cls.ground = cls.server.demo_ground()
        cls.trip = cls.server.post("/api/trips", {"ground_id": cls.ground, "example": True})
        cls.job = cls.server.done(cls.server.post(f"/api/trips/{cls.trip['id']}/ways", {"revision": cls.trip["revision"]}))
        cls.ways = cls.server.get(cls.job["result_url"])

    def path(self, what):
        return f"/api/trips/{self.trip['id']}/{what}"

    def test_hello_and_lists(self):
        self.assertEqual(self.server.get("/api/hello")["demo_ground_id"], self.ground)
        self.assertIn(self.ground, [g["id"] for g in self.server.get("/api/grounds")["grounds"]])
        self.assertIn(self.trip["id"], [t["id"] for t in self.server.get("/api/trips")["trips"]])
        self.assertIn(self.job["id"], [j["id"] for j in self.server.get("/api/jobs")["jobs"]])

    def test_ground_says_what_it_holds(self):
        g = self.server.get("/api/grounds/" + self.ground)["summary"]
        self.assertEqual((g["epsg"], g["cell_m"], g["rows"], g["cols"]), (32629, 10, 1200, 1200))
        self.assertIn("path", [k["kind"] for k in g["kinds"]])
        self.assertTrue(g["wkt"].startswith("PROJCS["))
        self.assertEqual(g["tiles"]["origin_grid_m"], [g["extent_grid_m"][0], g["extent_grid_m"][3]])

    def test_place_both_ways(self):
        base = f"/api/grounds/{self.ground}/place"
        a = self.server.get(base + "?east_m=483055&north_m=6053075")
        self.assertEqual((a["easting_northing"], a["grid_reference"], a["inside"]), ("483055 6053075", "830 530", True))
        self.assertGreater(a["height_m"], 500)
        for typed in (a["mgrs"], a["latitude_longitude"], a["easting_northing"]):
            b = self.server.get(base + "?at=" + typed.replace(" ", "%20"))
            self.assertLess(abs(b["at_grid_m"][0] - 483055) + abs(b["at_grid_m"][1] - 6053075), 2, typed)
        fault = self.server.call("GET", base + "?at=nowhere", expect=400)[1]["fault"]
        self.assertEqual(fault["where"], "at")

    def test_tiles(self):
        tiles = self.server.get("/api/grounds/" + self.ground)["summary"]["tiles"]
        z = len(tiles["resolutions_m_per_px"]) - 4  # 1:25 000
        url = tiles["url"].replace("{z}", str(z)).replace("{x}", "3").replace("{y}", "3")
        status, headers, png = self.server.raw("GET", url)
        self.assertEqual((status, headers["content-type"], png[:8]), (200, "image/png", b"\x89PNG\r\n\x1a\n"))
        self.assertEqual(self.server.raw("GET", url)[2], png)
        self.assertNotEqual(self.server.raw("GET", url + "&slope=1")[2], png)
        self.assertNotEqual(self.server.raw("GET", url + "&theme=dark")[2], png)
        for odd in ("99/0/0", "0/9/9", "-1/0/0", "0/-1/0", "x/0/0", "0/0/0.5", "0/0/99999999999999999999", "3/2147483647/2147483647"):
            self.assertEqual(self.server.raw("GET", f"/api/grounds/{self.ground}/tiles/{odd}.png")[0], 404, odd)

    def test_ways_fit_together(self):
        self.assertEqual((self.ways["trip_id"], self.ways["revision"]), (self.trip["id"], self.trip["revision"]))
        self.assertIn(self.ways["picked"], [w["name"] for w in self.ways["ways"]])
        for way in self.ways["ways"]:
            legs = way["legs"]
            self.assertEqual([leg["leg"] for leg in legs], list(range(1, len(legs) + 1)))
            self.assertAlmostEqual(way["length_m"], sum(leg["length_m"] for leg in legs), places=3)
            self.assertAlmostEqual(way["minutes"], sum(leg["minutes"] for leg in legs), places=3)
            for before, after in zip(legs, legs[1:]):
                self.assertEqual(before["line"][-1], after["line"][0])
                self.assertLessEqual(before["arrive_clock_min"], after["leave_clock_min"])
            turn = way["norths"]["grid_magnetic_deg"]
            for leg in legs:
                apart = (leg["grid_bearing_deg"] - leg["magnetic_bearing_deg"] - turn + 180) % 360 - 180
                self.assertLess(abs(apart), 0.2, "the same angle everywhere on so small a ground")
                back = (leg["back_bearing_deg"] - leg["magnetic_bearing_deg"]) % 360
                self.assertAlmostEqual(back, 180, places=6)
            clock = [p["clock_min"] for p in way["profile"]]
            self.assertEqual(clock, sorted(clock))
            self.assertAlmostEqual(clock[0], way["schedule"]["start_clock_min"])
            points = [leg["ends_point"] for leg in legs if leg["ends_point"]]
            self.assertEqual(points, [2, 3, 4, 5])

    def test_what_falls_short_is_said_beside_each_way(self):
        trip = self.server.post("/api/trips", {"ground_id": self.ground, "example": True})
        changes = [{"path": "/document/min_certainty", "value": 0.99}]
        trip = self.server.post(f"/api/trips/{trip['id']}/changes", {"revision": trip["revision"], "changes": changes})
        job = self.server.done(self.server.post(f"/api/trips/{trip['id']}/ways", {"revision": trip["revision"]}))
        for way in self.server.get(job["result_url"])["ways"]:
            said = {leg["leg"]: min(leg["certainty"], leg["certainty_low"]) for leg in way["legs"]}
            short = [leg for leg, kept in said.items() if kept < 0.99]
            self.assertTrue(short, "the trip asks for more than there is")
            named = ", ".join(f"leg {leg} ({math.floor(100 * said[leg] + 1e-9)})" for leg in short)
            self.assertEqual(way["remarks"][0], "fewer than your limit of 99 in 100 keep these: " + named)

    def test_the_command_writes_the_same_shapes(self):
        """lodeway way --json, held against the schema: each leg and way as the server's."""
        with tempfile.TemporaryDirectory() as folder:
            trip = pathlib.Path(folder, "trip.toml")
            trip.write_bytes(self.server.raw("GET", self.path("trip.toml"))[2])
            said = subprocess.run([PROGRAM, "way", trip, "--json"], capture_output=True, text=True)
        self.assertEqual(said.returncode, 0, said.stderr)
        plan = json.loads(said.stdout)
        CHECKERS["Plan"].validate(plan)
        self.assertEqual([w["name"] for w in plan["ways"]], [w["name"] for w in self.ways["ways"]])
        for mine, other in zip(plan["ways"], self.ways["ways"]):
            self.assertEqual(mine["legs"], other["legs"])
            self.assertEqual(mine["schedule"], other["schedule"])
        self.assertEqual(plan["legs"], next(w["legs"] for w in plan["ways"] if w["picked"]))

    def test_no_warning_outlives_what_it_warns_of(self):
        """Ways are found without an emergency number; then one is given: the same ways, no such warning."""
        trip = self.server.post("/api/trips", {"ground_id": self.ground, "example": True})
        jobs, said = [], []
        for number in ("", "112"):
            changes = [{"path": "/document/home/emergency_number", "value": number}]
            trip = self.server.post(f"/api/trips/{trip['id']}/changes", {"revision": trip["revision"], "changes": changes})
            job = self.server.done(self.server.post(f"/api/trips/{trip['id']}/ways", {"revision": trip["revision"]}))
            jobs.append(job["id"])
            ways = self.server.get(job["result_url"])["ways"]
            said.append([w["text"] for w in ways[0]["warnings"]])
        self.assertEqual(jobs[0], jobs[1], "nothing that the ways depend on was changed")
        gone = [text for text in said[0] if text not in said[1]]
        self.assertEqual(len(gone), 1, said)
        self.assertEqual([text for text in said[1] if text not in said[0]], [])

    def test_why(self):
        way = self.ways["picked"]
        why = self.server.get(f"/api/ways/{self.job['id']}/{way}/1/why")
        self.assertTrue(why["sentences"] and why["sentences"][0])
        for odd in (f"{way}/0", f"{way}/999", f"{way}/x", "nicest/1"):
            self.assertIn(self.server.call("GET", f"/api/ways/{self.job['id']}/{odd}/why")[0], (400, 404), odd)

    def test_conditions_are_those_of_the_command(self):
        """Each way's own table; the picked one's is what `lodeway way --conditions` writes."""
        of = {w["name"]: self.server.get(f"/api/ways/{self.job['id']}/{w['name']}/conditions") for w in self.ways["ways"]}
        for way in self.ways["ways"]:
            CHECKERS["Conditions"].validate(of[way["name"]])
            first = of[way["name"]]["rows"][0]
            self.assertEqual(first["condition"], "as_planned")
            self.assertEqual((first["certainty"], first["verdict"]), (way["certainty"], way["verdict"]["band"]))
        with tempfile.TemporaryDirectory() as folder:
            trip = pathlib.Path(folder, "trip.toml")
            trip.write_bytes(self.server.raw("GET", self.path("trip.toml"))[2])
            said = subprocess.run([PROGRAM, "way", trip, "--conditions", "--json"], capture_output=True, text=True)
        plan = json.loads(said.stdout)
        self.assertEqual(of[self.ways["picked"]]["rows"], plan["conditions"])
        url = f"/api/ways/{self.job['id']}/{self.ways['picked']}/conditions?row="
        self.assertEqual([self.server.get(url + str(k))["rows"] for k in range(6)], [[row] for row in plan["conditions"]])
        for odd in ("6", "-1", "", "x", "00"):
            self.assertEqual(self.server.call("GET", url + odd)[0], 400, odd)
        self.assertIn(self.server.call("GET", f"/api/ways/{self.job['id']}/nicest/conditions")[0], (400, 404))

    def test_day_before_there_is_a_way(self):
        day = self.server.get(self.path("day"))
        self.assertEqual(day, self.ways["daylight"])
        empty = self.server.post("/api/trips", {"ground_id": self.ground, "zone": "Europe/Dublin"})
        self.assertLess(self.server.get(f"/api/trips/{empty['id']}/day")["rise_clock_min"], 720)

    def test_same_question_is_not_asked_twice(self):
        job = self.server.post(self.path("ways"), {"revision": self.trip["revision"]})
        self.assertEqual((job["id"], job["state"]), (self.job["id"], "done"))

    def test_quick_leg_is_the_same_leg(self):
        bearing = [leg for w in self.ways["ways"] for leg in w["legs"] if leg["kind"] == "bearing"]
        self.assertTrue(bearing)
        leg = bearing[0]
        got = self.server.post(self.path("quick"), {"points_grid_m": [leg["line"][0], leg["line"][-1]]})["legs"][0]
        for key in ("length_m", "magnetic_bearing_deg", "climb_m", "minutes", "double_paces"):
            self.assertAlmostEqual(got[key], leg[key], places=6, msg=key)
        self.assertIsNone(got["leave"])
        self.assertIsNotNone(got["certainty"])
        for points in ([], [[1, 2]], [[1, 2]] * 7, [[480000, 6050000], [480000, 6050000]], [["a", 1], [2, 3]], [[0, 0], [1, 1]]):
            status, _ = self.server.call("POST", self.path("quick"), {"points_grid_m": points})
            self.assertIn(status, (400, 422), points)

    def test_rehearsal(self):
        wanted = {"revision": self.trip["revision"], "way": self.ways["picked"], "walkers": 2000, "seed": 7}
        job = self.server.done(self.server.post(self.path("rehearsal"), wanted))
        r = self.server.get(job["result_url"])
        way = next(w for w in self.ways["ways"] if w["name"] == self.ways["picked"])
        self.assertEqual(len(r["legs"]), len(way["legs"]))
        self.assertEqual(r["verdict"], way["verdict"])
        for leg in r["legs"]:
            self.assertEqual(leg["walkers"] - leg["kept"], sum(x["walkers"] for x in leg["lost"]))
        watch = r["watch"]
        self.assertEqual(watch["parties"], 500)
        self.assertEqual(sum(e["parties"] for e in watch["ended"]), 500)
        left = 500
        for leg in watch["legs"]:
            self.assertEqual(sum(w["parties"] for w in leg["why"]), leg["lost"])
            left -= leg["lost"]
            self.assertEqual(leg["left"], left)
            self.assertLessEqual(leg["keep_off"], watch["keep_off"])
            shown = [p for p in watch["lost"] if p["leg"] == leg["leg"]]
            self.assertEqual(len(shown), min(leg["lost"], 40))
            self.assertLessEqual({p["why"] for p in shown}, {w["why"] for w in leg["why"]})
        self.assertLess(left, 500, "somebody goes wrong in cloud or clear")
        for party in watch["lost"]:
            line, at = party["line_grid_m"], party["at_grid_m"]
            self.assertIn(at, line, "the cross stands on the line")
            # Who has gone wrong nowhere before begins the leg where it begins, near enough to know it.
            begins = way["legs"][party["leg"] - 1]["line"][0]
            self.assertLess(math.dist(line[0], begins), 250)
            for a, b in zip(line, line[1:]):
                self.assertLess(math.dist(a, b), 150, "nobody jumps")
        status, headers, png = self.server.raw("GET", r["density"]["url"])
        self.assertEqual((status, headers["content-type"], png[:4]), (200, "image/png", b"\x89PNG"))
        self.server.call("POST", self.path("rehearsal"), {**wanted, "walkers": 0}, expect=400)
        self.server.call("POST", self.path("rehearsal"), {**wanted, "way": "nicest"}, expect=400)

    def test_paper(self):
        wanted = {"revision": self.trip["revision"], "way": self.ways["picked"]}
        frames = self.server.post(self.path("sheets"), wanted)
        self.assertTrue(frames["frames"])
        job = self.server.done(self.server.post(self.path("paper"), wanted))
        paper = self.server.get(job["result_url"])
        self.assertEqual(paper["frames"], frames["frames"])
        way = next(w for w in self.ways["ways"] if w["name"] == self.ways["picked"])
        self.assertEqual(paper["verdict"], way["verdict"])
        sorts = {f["what"] for f in paper["files"]}
        self.assertEqual(sorts, {"sheet", "card", "home_note", "escape_card", "lost_card", "gpx", "geojson", "text", "table", "trip", "everything", "kml", "calendar", "zip"})
        for f in paper["files"]:
            status, headers, data = self.server.raw("GET", f["url"])
            self.assertEqual((status, len(data)), (200, f["size_bytes"]), f["file"])
            self.assertIn("attachment", headers["content-disposition"])
            self.assertEqual(f["file"].endswith(".pdf"), data.startswith(b"%PDF"))
            self.assertEqual(f["file"].endswith(".pdf") and f["what"] != "everything", bool(f["pages"]))
            for page in f["pages"]:
                status, _, png = self.server.raw("GET", page["preview_url"])
                self.assertEqual((status, png[:4]), (200, b"\x89PNG"))
        sheet = next(f for f in paper["files"] if f["file"] == "sheet-1.pdf")
        self.assertAlmostEqual(sheet["pages"][0]["width_mm"], 210, delta=0.2)  # A4; previews have whole pixels
        json.loads(self.server.raw("GET", next(f["url"] for f in paper["files"] if f["what"] == "geojson"))[2])
        self.assertEqual(self.server.raw("GET", f"/api/papers/{job['id']}/trips.sqlite")[0], 404)

    def test_trip_file_for_the_command_line(self):
        text = self.server.raw("GET", self.path("trip.toml"))[2].decode()
        self.assertIn("Skarrow round", text)
        self.assertIn(".gpkg", text)

    def test_old_revision_is_a_conflict(self):
        status, got = self.server.call("POST", self.path("ways"), {"revision": self.trip["revision"] + 5})
        self.assertEqual((status, got["newest"]["revision"]), (409, self.trip["revision"]))


class OptionsAndReader(LiveTest):
    """The table that the page shows and the reader of trips are two places: they must say the same."""
    fells = True

    @classmethod
    def setUpClass(cls):
        super().setUpClass()
        cls.trip = cls.server.post("/api/trips", {"ground_id": cls.server.demo_ground(), "example": True})
        cls.options = [o for g in cls.server.get("/api/options")["groups"] for o in g["options"]]

    def faults(self, path, value):
        """What is said of a document that no page would send, so its echo is not held against the schema."""
        cls = type(self)
        if isinstance(value, float) and value.is_integer():
            value = int(value)  # a page's JSON knows no 2.0
        body = json.dumps({"revision": cls.trip["revision"], "changes": [{"path": path, "value": value}]})
        status, _, text = self.server.raw("POST", f"/api/trips/{cls.trip['id']}/changes", body, {"X-Lodeway": "1"})
        self.assertEqual(status, 200, text)
        changed = json.loads(text)
        cls.trip = self.server.post(f"/api/trips/{cls.trip['id']}/undo", {"revision": changed["revision"]})
        return changed["faults"]

    def test_ranges_and_choices(self):
        checked = 0
        for o in self.options:
            if o["key"].startswith("point."):
                continue
            path = "/document/" + o["key"].replace(".", "/")
            good, bad = [], []
            if o["least"] is not None:
                good, bad = [o["least"], o["most"]], [o["most"] + 1, o["least"] - 1, "x"]
            elif o["type"] == "choice":
                good, bad = [c["value"] for c in o["choices"]], ["x", 1]
            elif o["type"] == "flag":
                good, bad = [True, False], ["yes", 1]
            if o["default"] is not None:
                good.append(o["default"])
            for value in good:
                self.assertEqual(self.faults(path, value), [], (o["key"], value))
            for value in bad:
                faults = self.faults(path, value)
                self.assertEqual([f["where"] for f in faults], [o["key"]], (o["key"], value))
            checked += bool(good or bad)
        self.assertGreater(checked, 25)

    def test_no_key_is_forgotten(self):
        tables = {"": {"point", "avoid", "safe", "party", "home", "paper", "kind", "pick", "chances"}, "party": {"errors"}, "party.errors": set(), "home": set(), "paper": set()}
        for table, inner in tables.items():
            path = "/document/" + "".join(piece + "/" for piece in table.split(".") if piece) + "nonsense"
            message = self.faults(path, 1)[0]["message"]
            known = set(message.split("expected one of ")[1].split(", "))
            shown = {o["key"].rsplit(".", 1)[-1] for o in self.options if o["key"].rpartition(".")[0] == table}
            self.assertEqual(known - inner, shown, table)


class Faults(LiveTest):
    def test_a_new_trip_is_for_a_day_to_come(self):
        """Never this morning when it is evening: by the clock of the trip's own zone, on either side of the date line."""
        for zone in ("UTC", "Pacific/Kiritimati", "Pacific/Pago_Pago", "Asia/Kathmandu"):
            document = self.server.post("/api/trips", {"ground_id": None, "zone": zone})["state"]["document"]
            start = datetime.datetime.fromisoformat(f"{document['date']}T{document['start']}").replace(tzinfo=zoneinfo.ZoneInfo(zone))
            ahead = start.timestamp() - time.time()
            self.assertTrue(-60 < ahead <= 24 * 3600, f"{zone}: {document['date']}, {ahead} s ahead")

    def test_options_say_everything_in_words(self):
        groups = self.server.get("/api/options")["groups"]
        for group in groups:
            self.assertTrue(group["options"], group["key"])
            for option in group["options"]:
                self.assertTrue(option["words"] and option["changes"], option["key"])
                self.assertEqual(option["type"] == "choice", bool(option["choices"]), option["key"])

    def test_a_new_trip_says_what_is_missing_beside_the_thing(self):
        trip = self.server.post("/api/trips", {"ground_id": None, "zone": "Europe/Dublin"})
        self.assertEqual(trip["faults"][0]["where"], "ground_id")
        self.assertTrue(trip["faults"][0]["what_to_do"])
        self.assertEqual(trip["faults"][0]["in_german"], {"message": "erwartet wird ein Gelände", "what_to_do": "Wählt zuerst ein Gelände."})
        self.server.call("POST", f"/api/trips/{trip['id']}/ways", {"revision": trip["revision"]}, expect=400)

    def test_bad_bodies(self):
        for body in (b"", b"{", b"[]", b"null", b'"x"', b"{" * 100, b"\xff\xfe", b'{"ground_id": 5}', b'{"ground_id": "nothing"}', b'{"document": []}'):
            status, _ = self.server.call("POST", "/api/trips", body)
            self.assertIn(status, (400, 201) if body == b"" else (400,), body)
        self.server.call("POST", "/api/grounds/open", {"path": 5}, expect=400)
        self.server.call("POST", "/api/grounds/build", {"name": "x", "elevation": [], "features": []}, expect=400)
        self.server.call("POST", "/api/grounds/build", {"name": "x", "elevation": [{"upload": "../.."}], "features": []}, expect=400)
        for path in ("/api/trips/none", "/api/jobs/none", "/api/ways/none", "/api/rehearsals/none", "/api/papers/none", "/api/grounds/none"):
            self.server.call("GET", path, expect=404)

    def test_a_build_that_fails_says_why_and_a_build_can_be_stopped(self):
        job = self.server.post("/api/grounds/build", {"name": "x", "elevation": [{"path": "/no/such/hills.tif"}], "features": []})
        job = self.server.wait(job)
        self.assertEqual(job["state"], "failed")
        self.assertIn("/no/such/hills.tif", job["fault"]["where"] or job["fault"]["message"])
        job = self.server.post("/api/grounds/demo")
        self.server.call("DELETE", "/api/jobs/" + job["id"], expect=200)
        self.assertIn(self.server.wait(job)["state"], ("cancelled", "done"))


class Events(LiveTest):
    def test_one_stream_tells_everything(self):
        events = []
        line = connect(self.server)
        line.sendall(f"GET /api/events HTTP/1.1\r\nHost: 127.0.0.1:{self.server.port}\r\nX-Key: {self.server.key}\r\n\r\n".encode())
        line.settimeout(60)

        def listen():
            text = b""
            try:
                while piece := line.recv(65536):
                    text += piece
                    while b"\n\n" in text:
                        one, text = text.split(b"\n\n", 1)
                        events.extend(json.loads(part[6:]) for part in one.split(b"\n") if part.startswith(b"data: "))
            except OSError:
                pass
        listener = threading.Thread(target=listen, daemon=True)
        listener.start()
        until = time.time() + 20
        while time.time() < until and not events:
            time.sleep(0.02)
        trip = self.server.post("/api/trips", {"ground_id": None})
        job = self.server.wait(self.server.post("/api/grounds/build", {"name": "x", "elevation": [{"path": "/no.tif"}], "features": []}))
        until = time.time() + 20
        while time.time() < until and not any(e["type"] == "job" and e["job"]["state"] == "failed" for e in events):
            time.sleep(0.05)
        for event in events:
            CHECKERS["Event"].validate(event)
        self.assertEqual(events[0]["type"], "hello")
        self.assertIn({"type": "trip", "trip_id": trip["id"], "revision": 1}, events)
        self.assertIn(job["id"], [e["job"]["id"] for e in events if e["type"] == "job"])
        line.close()


if __name__ == "__main__":
    main()
