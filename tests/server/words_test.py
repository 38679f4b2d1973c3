"""What the page's answers quote of what was typed: one line, short, and nothing that a screen would act on."""
import json
import urllib.parse

from live import LiveTest, main

BREAKS = ("819\n 5133", "819\r\n5133", "a\tb", "a\u2028b", "a\u202eb", "a\u0000b", "a\u001b[2Jb", "a\ufffeb", "x" * 1500)


def texts(value):
    """Every text in an answer."""
    if isinstance(value, str):
        yield value
    elif isinstance(value, dict):
        for one in value.values():
            yield from texts(one)
    elif isinstance(value, list):
        for one in value:
            yield from texts(one)


class Words(LiveTest):
    fells = True

    def one_line(self, value, most):
        for text in texts(value):
            for letter in "\n\r\t\u2028\u202e\u0000\u001b\ufffe":
                self.assertNotIn(letter, text, repr(text[:200]))
            self.assertLess(len(text), most, repr(text[:200]))

    def test_faults_of_a_trip(self):
        ground = self.server.demo_ground()
        example = self.server.post("/api/trips", {"ground_id": ground, "example": True})["state"]["document"]
        for typed in BREAKS:
            places = [{"at": typed}, {"at": "481949 6050540"}]
            for path, value in (("point", places), ("date", typed), ("start", typed), ("zone", typed), ("pick", typed),
                                ("party", {"skill": typed}), ("party", {typed[:60]: 1}), (typed[:60], 1), ("safe", [{"at": typed}]),
                                ("avoid", [{"name": typed, "ring": [typed, typed, typed]}]), ("home", {"name": typed, "phone": typed})):
                with self.subTest(path[:10], typed=typed[:10]):
                    body = {"ground_id": ground, "document": {**example, path: value}}
                    status, _, text = self.server.raw("POST", "/api/trips", json.dumps(body).encode(),
                                                      {"X-Lodeway": "1", "Sec-Fetch-Site": "same-origin"})
                    self.assertIn(status, (201, 400), text[:300])
                    got = json.loads(text)
                    if status == 201:
                        self.one_line(got["faults"], 400)
                        self.server.call("DELETE", "/api/trips/" + got["id"], expect=200)
                    else:
                        self.one_line(got["fault"], 400)

    def test_questions_about_places(self):
        ground = self.server.demo_ground()
        for typed in BREAKS:
            asked = urllib.parse.quote(typed)
            for path in (f"/api/grounds/{ground}/place?text={asked}", f"/api/grounds/{ground}/place?east_m={asked}&north_m=1",
                         f"/api/grounds/{ground}/names?text={asked}", f"/api/grounds/{asked[:200]}", f"/api/trips/{asked[:200]}"):
                with self.subTest(path[:40]):
                    status, _, text = self.server.raw("GET", path)
                    if status >= 400:
                        self.one_line(json.loads(text)["fault"], 400)


if __name__ == "__main__":
    main()
