"""What the hand does on the map, and what comes in and goes out: every answer held against the schema."""
import io
import json
import math
import urllib.parse
import zipfile

from live import LiveTest, main


class Hand(LiveTest):
    fells = True

    @classmethod
    def setUpClass(cls):
        super().setUpClass()
        cls.ground = cls.server.demo_ground()
        cls.trip = cls.server.post("/api/trips", {"ground_id": cls.ground, "example": True})

    def find(self, text, more=""):
        return self.server.get(f"/api/grounds/{self.ground}/find?text={urllib.parse.quote(text)}{more}")

    def test_names_slips_and_accents(self):
        self.assertEqual(self.find("Harrik Pike")["names"][0]["name"], "Harrik Pike")
        for typed in ("harrik", "Harirk Pike", "Hárrîk Pike", "HARRIK  PIKE"):
            self.assertEqual(self.find(typed)["names"][0]["name"], "Harrik Pike", typed)
        self.assertEqual(self.find("xqzwvvbk"), {"names": [], "squares": [], "place": None, "why_not": None})
        self.assertEqual(self.find("Harrik", "&language=de")["names"][0]["kind_words"], "Gipfel")

    def test_figures_name_squares(self):
        six = self.find("835 503")
        self.assertEqual(len(six["squares"]), 1)
        s = six["squares"][0]
        self.assertEqual((s["east_figures"], s["north_figures"], s["side_m"]), ("835", "503", 100))
        # 29U: easting 4 835.., northing 60 503..: the reference's own digits stand in the coordinates.
        self.assertEqual([v % 100000 for v in s["south_west_grid_m"]], [83500, 50300])
        for one in s["in_it"]:
            for k in (0, 1):
                self.assertGreaterEqual(one["at_grid_m"][k], s["south_west_grid_m"][k])
                self.assertLessEqual(one["at_grid_m"][k], s["south_west_grid_m"][k] + 100)
        self.assertEqual(self.find("83530 50380")["squares"][0]["side_m"], 1)
        self.assertEqual(self.find("8353 5038")["squares"][0]["side_m"], 10)
        whole = self.find("483530 6050380")
        self.assertEqual((whole["squares"], whole["place"]["easting_northing"]), ([], "483530 6050380"))
        self.assertIsNotNone(self.find("12")["why_not"])

    def test_names_of_a_part(self):
        base = f"/api/grounds/{self.ground}/names"
        a = self.server.get(base + "?west_m=482000&south_m=6050000&east_m=485000&north_m=6054000")["names"]
        self.assertIn("Harrik Pike", [n["name"] for n in a])
        for n in a:
            for e, north, bearing in n["spots"]:
                self.assertTrue(482000 <= e <= 485000 and 6050000 <= north <= 6054000 and 0 <= bearing < 180)
        self.server.call("GET", base + "?west_m=1", expect=400)

    def test_what_a_click_means(self):
        base = f"/api/grounds/{self.ground}/what?east_m=483060&north_m=6053080"
        snapped = self.server.get(base + "&within_m=60")
        self.assertEqual(snapped["stands_on"]["name"], "Harrik Pike")
        self.assertLess(snapped["stands_on"]["distance_m"], 60)
        exact = self.server.get(base)
        self.assertIsNone(exact["stands_on"])
        self.assertIn("Harrik Pike", exact["called"])
        self.assertGreater(exact["place"]["height_m"], 700)

    def test_a_dragged_leg_has_the_low_end_that_the_page_says(self):
        for path in ("quick", "measure"):
            told = self.server.post(f"/api/trips/{self.trip['id']}/{path}", {"points_grid_m": [[482595, 6052025], [483055, 6053075]]})
            leg = told["leg"] if path == "measure" else told["legs"][0]
            self.assertLess(leg["certainty_low"], leg["certainty"])
            self.assertLess(leg["certainty"], leg["certainty_high"])
            self.assertGreater(leg["certainty_low"], 0.2)

    def test_a_string_is_as_geometry_says(self):
        url = f"/api/trips/{self.trip['id']}/measure"
        a, b = [482595, 6052025], [483055, 6053075]
        laid = self.server.post(url, {"points_grid_m": [a, b]})
        leg = laid["leg"]
        grid = math.hypot(b[0] - a[0], b[1] - a[1])
        self.assertAlmostEqual(leg["grid_bearing_deg"], math.degrees(math.atan2(b[0] - a[0], b[1] - a[1])), delta=0.01)
        self.assertAlmostEqual((leg["magnetic_bearing_deg"] + 180) % 360, leg["back_bearing_deg"], delta=0.01)
        # The scale of UTM is within 0.9996 and 1.001 over its zone (Snyder 1987, USGS PP 1395, p. 57).
        self.assertTrue(0.999 < leg["length_m"] / grid < 1.0005)
        heights = laid["heights_m"]
        self.assertAlmostEqual(heights[-1] - heights[0], leg["climb_m"] - leg["descent_m"], delta=1.5)
        # Across Thrael Tarn: over water, and said so.
        wet = self.server.post(url, {"points_grid_m": [[480400, 6052700], [481700, 6052700]]})
        for k in wet["keep_off"]:
            self.assertLess(k["from_m"], k["to_m"])
            self.assertEqual(len(k["line_grid_m"]), 2)
        self.server.call("POST", url, {"points_grid_m": [a, a]}, expect=400)

    def test_tiles_without_names_and_with_ground_to_keep_off(self):
        tiles = self.server.get("/api/grounds/" + self.ground)["summary"]["tiles"]
        z = len(tiles["resolutions_m_per_px"]) - 4
        url = tiles["url"].replace("{z}", str(z)).replace("{x}", "3").replace("{y}", "3")
        plain = self.server.raw("GET", url)[2]
        self.assertNotEqual(self.server.raw("GET", url + "&names=0")[2], plain)
        self.assertNotEqual(self.server.raw("GET", url + "&keep_off=25")[2], plain)
        self.assertEqual(self.server.raw("GET", url + "&keep_off=90")[2], plain)

    def upload(self, name, content):
        headers = {"X-Lodeway": "1", "Content-Type": "application/octet-stream"}
        status, _, body = self.server.raw("POST", "/api/uploads?name=" + name, content, headers)
        self.assertEqual(status, 200, body)
        return json.loads(body)

    def test_a_whole_trip_opens_as_it_was(self):
        status, headers, body = self.server.raw("GET", f"/api/trips/{self.trip['id']}/whole.zip")
        self.assertEqual(status, 200)
        archive = zipfile.ZipFile(io.BytesIO(body))
        self.assertEqual(sorted(archive.namelist()), ["ground.gpkg", "trip.toml"])
        self.assertNotIn(b"/", [l for l in archive.read("trip.toml").split(b"\n") if l.startswith(b"ground")][0])
        sent = self.upload("whole.zip", body)
        self.assertEqual(sent["role"], "whole")
        brought = self.server.post("/api/bring", {"upload": sent["id"], "ground_id": None})
        self.assertEqual(brought["kind"], "whole")
        self.assertNotEqual(brought["ground_id"], self.ground)
        made = self.server.post("/api/trips", {"ground_id": brought["ground_id"], "document": brought["document"]})
        self.assertEqual(made["faults"], [])
        self.assertEqual(made["state"]["document"], self.trip["state"]["document"])
        for wrong in (b"no zip", body[:2000]):
            bad = self.upload("wrong.zip", wrong)
            self.server.call("POST", "/api/bring", {"upload": bad["id"], "ground_id": None}, expect=400)

    def test_routes_and_tracks(self):
        place = self.server.get(f"/api/grounds/{self.ground}/place?east_m=482000&north_m=6051000")
        lat, lon = place["latitude_deg"], place["longitude_deg"]
        points = [(lat + 0.0002 * i, lon + 0.0003 * math.sin(i / 9)) for i in range(80)]
        track = "".join(f'<trkpt lat="{a}" lon="{b}"/>' for a, b in points)
        gpx = '<?xml version="1.0"?><gpx version="1.1" creator="t" xmlns="http://www.topografix.com/GPX/1/1">{}</gpx>'
        sent = self.upload("walk.gpx", gpx.format(f"<trk><trkseg>{track}</trkseg></trk>").encode())
        got = self.server.post("/api/bring", {"upload": sent["id"], "ground_id": self.ground})
        self.assertEqual((got["kind"], got["outside"]), ("track", 0))
        self.assertTrue(2 <= len(got["points"]) <= 25)
        self.assertEqual([round(v) for v in got["line_grid_m"][0]], [482000, 6051000])
        two = '<rte><rtept lat="{}" lon="{}"><name>Hut</name></rtept><rtept lat="{}" lon="{}"/></rte>'.format(lat, lon, lat + 0.01, lon)
        sent = self.upload("route.gpx", gpx.format(two).encode())
        got = self.server.post("/api/bring", {"upload": sent["id"], "ground_id": self.ground})
        self.assertEqual((got["kind"], got["points"][0]["name"]), ("route", "Hut"))
        sent = self.upload("far.gpx", gpx.format('<wpt lat="1" lon="1"/><wpt lat="2" lon="2"/>').encode())
        got = self.server.post("/api/bring", {"upload": sent["id"], "ground_id": self.ground})
        self.assertEqual((got["points"], got["outside"]), ([], 2))
        self.server.call("POST", "/api/bring", {"upload": sent["id"], "ground_id": None}, expect=400)

    def test_paper_goes_out_in_one(self):
        job = self.server.done(self.server.post(f"/api/trips/{self.trip['id']}/ways", {"revision": self.trip["revision"]}))
        ways = self.server.get(job["result_url"])
        way = ways["picked"]
        done = self.server.done(self.server.post(f"/api/trips/{self.trip['id']}/paper", {"revision": self.trip["revision"], "way": way, "large_type": False}))
        files = {f["file"]: f for f in self.server.get(done["result_url"])["files"]}
        for wanted in ("everything.pdf", "way.kml", "home.ics", "paper.zip"):
            self.assertIn(wanted, files)
        names = zipfile.ZipFile(io.BytesIO(self.server.raw("GET", files["paper.zip"]["url"])[2])).namelist()
        self.assertIn("everything.pdf", names)
        self.assertIn("card.pdf", names)
        ics = self.server.raw("GET", files["home.ics"]["url"])[2].decode()
        self.assertEqual(ics.count("BEGIN:VEVENT"), 3)
        schedule = next(w for w in ways["ways"] if w["name"] == way)["schedule"]
        starts = [l.split(":")[1] for l in ics.split("\r\n") if l.startswith("DTSTART")]
        # The example's day is in winter, on a clock that is UTC then.
        at = lambda key: "20261114T%02d%02d00Z" % divmod(round(schedule[key + "_clock_min"]), 60)
        self.assertEqual(starts, [at("end"), at("end_slow"), at("act_by")])


if __name__ == "__main__":
    main()
