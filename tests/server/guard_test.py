"""Who may ask: rebound names, foreign sites, paths that climb, headers of every answer."""
import socket
import pathlib
import unittest

from live import LiveTest, Server, connect, main


class Guard(LiveTest):
    def refused(self, status, method, path, headers, body=None):
        got, _, text = self.server.raw(method, path, body, headers)
        self.assertEqual(got, status, (method, path, headers, text[:200]))

    def test_host_of_another_name_is_refused(self):
        port = self.server.port
        for host in ("evil.example", f"evil.example:{port}", f"127.0.0.1.evil.example:{port}", "127.0.0.1", "", f"127.0.0.1:{port + 1}",
                     f"10.0.0.7:{port}", f"localhost.:{port}", f"127.0.0.1:{port}@evil.example"):
            self.refused(421, "GET", "/api/hello", {"Host": host})
        for host in (f"127.0.0.1:{port}", f"localhost:{port}"):
            self.assertEqual(self.server.raw("GET", "/api/hello", None, {"Host": host})[0], 200)

    def test_two_hosts_are_refused(self):
        with connect(self.server) as line:
            line.sendall(f"GET /api/hello HTTP/1.1\r\nHost: 127.0.0.1:{self.server.port}\r\nX-Key: {self.server.key}\r\nHost: evil.example\r\n\r\n".encode())
            self.assertIn(b" 421 ", line.recv(200))

    def test_posts_of_other_sites_are_refused(self):
        ours = {"X-Lodeway": "1", "Content-Type": "application/json"}
        body = '{"ground_id": null}'
        before = len(self.server.get("/api/trips")["trips"])
        for headers in ({"Origin": "http://evil.example"}, {"Origin": "null"}, {"Origin": f"https://127.0.0.1:{self.server.port}"},
                        {"Origin": f"http://evil.example:{self.server.port}"},
                        {"Sec-Fetch-Site": "cross-site"}, {"Sec-Fetch-Site": "same-site"}):
            self.refused(403, "POST", "/api/trips", {**ours, **headers}, body)
        self.refused(403, "POST", "/api/trips", {"Content-Type": "text/plain"}, body)  # what a form can send
        self.refused(403, "DELETE", "/api/trips/abc", {})
        self.assertEqual(len(self.server.get("/api/trips")["trips"]), before)

    def test_reads_of_other_sites_are_refused_but_not_a_visit(self):
        for headers in ({"Origin": "http://evil.example"}, {"Sec-Fetch-Site": "cross-site", "Sec-Fetch-Mode": "no-cors"},
                        {"Sec-Fetch-Site": "cross-site", "Sec-Fetch-Mode": "navigate"}):
            self.refused(403, "GET", "/api/trips", headers)
        self.assertEqual(self.server.raw("GET", "/", None, {"Sec-Fetch-Site": "cross-site", "Sec-Fetch-Mode": "navigate"})[0], 200)

    def test_methods_and_lengths(self):
        self.refused(405, "PUT", "/api/trips", {"X-Lodeway": "1"}, "{}")
        self.refused(405, "OPTIONS", "/api/trips", {"Origin": "http://evil.example"} and {})
        self.refused(405, "POST", "/api/hello", {"X-Lodeway": "1"})
        self.refused(414, "GET", "/" + "a" * 3000, {})
        with connect(self.server) as line:
            line.sendall(f"POST /api/trips HTTP/1.1\r\nHost: 127.0.0.1:{self.server.port}\r\nX-Key: {self.server.key}\r\nX-Lodeway: 1\r\n"
                         "Transfer-Encoding: chunked\r\n\r\n2\r\n{}\r\n0\r\n\r\n".encode())
            self.assertIn(b" 411 ", line.recv(200))

    def test_paths_that_climb_find_nothing(self):
        for path in ("/../../etc/passwd", "/..%2f..%2fetc/passwd", "/%2e%2e/%2e%2e/etc/passwd", "/assets/../../../etc/passwd", "//etc/passwd",
                     "/api/papers/../../etc/passwd", "/api/papers/x/..%2f..%2ftrips.sqlite", "/api/papers/x/%2e%2e", "/api/trips/%00",
                     "/api/grounds/..%2f..%2fx", "/api/grounds/.git", "/assets/%2e%2e%2findex.html", "/\\..\\..\\etc\\passwd", "/file:///etc/passwd"):
            status, _, text = self.server.raw("GET", path)
            self.assertIn(status, (400, 404), (path, text[:100]))
            self.assertNotIn(b"root:", text)
        name = "../../../../tmp/climbed.tif"
        status, got = self.server.call("POST", "/api/uploads?name=" + name.replace("/", "%2f"), b"x")
        self.assertEqual((status, got["name"]), (200, "climbed.tif"))

    def test_every_answer_carries_the_headers_and_none_shares(self):
        for method, path, headers in (("GET", "/", {}), ("GET", "/api/hello", {}), ("GET", "/no-such-thing", {}),
                                      ("POST", "/api/trips", {}), ("GET", "/api/hello", {"Host": "evil.example"})):
            _, got, _ = self.server.raw(method, path, None, headers)
            policy = got["content-security-policy"]
            self.assertIn("default-src 'none'", policy)
            self.assertNotIn("unsafe", policy)
            self.assertEqual(got["x-content-type-options"], "nosniff")
            self.assertFalse([h for h in got if h.startswith("access-control-")], (method, path))

    def test_garbage_on_the_line(self):
        for text in (b"\x00" * 100, b"GET\r\n\r\n", b"GET / HTTP/9.9\r\n\r\n", b"\xff\xfe\xfd\r\n\r\n", b"GET / HTTP/1.1\r\nHost\r\n\r\n",
                     b"POST /api/trips HTTP/1.1\r\nHost: x\r\nContent-Length: -5\r\n\r\n", b"POST / HTTP/1.1\r\nContent-Length: 99999999999999999999\r\n\r\n"):
            with connect(self.server) as line:
                line.sendall(text)
                line.shutdown(socket.SHUT_WR)
                line.recv(100)
        self.assertTrue(self.server.alive())


class Key(unittest.TestCase):
    """Nothing without the key: this machine may have other users, and others may reach it."""

    def test_key(self):
        for address in ("127.0.0.1", "0.0.0.0"):
            with self.subTest(address):
                self.only_with_the_key(Server(None, "--address", address))

    def only_with_the_key(self, server):
        try:
            key = server.key
            self.assertGreaterEqual(len(key), 32)
            host = {"Host": f"127.0.0.1:{server.port}", "X-Key": ""}
            server.host = "127.0.0.1"
            for path in ("/", "/api/hello", "/api/trips", "/api/events", "/assets/none.js"):
                self.assertEqual(server.raw("GET", path, None, host)[0], 401, path)
            for wrong in ("0" * len(key), key[:-1], key + "0", ""):
                self.assertEqual(server.raw("GET", "/api/hello?key=" + wrong, None, host)[0], 401)
            self.assertEqual(server.raw("GET", "/api/hello", None, {**host, "X-Key": key})[0], 200)
            status, got, _ = server.raw("GET", "/?key=" + key, None, host)
            self.assertEqual((status, got["location"]), (303, "/"), "the key goes from the address")
            cookie = got["set-cookie"]
            self.assertIn("HttpOnly", cookie)
            self.assertIn("SameSite=Strict", cookie)
            self.assertEqual(server.raw("GET", "/api/hello", None, {**host, "Cookie": cookie.split(";")[0]})[0], 200)
            self.assertEqual(server.raw("GET", "/api/hello", None, {"Host": f"evil.example:{server.port}", "X-Key": key})[0], 421)
            kept = pathlib.Path(server.state, "key")
            self.assertEqual(kept.stat().st_mode & 0o077, 0, "others of this machine cannot read it")
            self.assertEqual(pathlib.Path(server.state).stat().st_mode & 0o077, 0)
        finally:
            server.close()


if __name__ == "__main__":
    main()
