"""Bodies made to harm: huge, deep, broken off. Refused or on disk, alive, memory bounded."""
import pathlib
import time

from harm import MORE_MIB, HarmTest
from live import connect, main

GIB = 1 << 30


class Bodies(HarmTest):
    def send(self, path, size, piece=b"\0" * (1 << 20)):
        """Sends a body of `size` bytes as long as it is taken; answers the status line."""
        with connect(self.server) as line:
            line.sendall(f"POST {path} HTTP/1.1\r\nHost: 127.0.0.1:{self.server.port}\r\nX-Key: {self.server.key}\r\nX-Lodeway: 1\r\nContent-Length: {size}\r\n\r\n".encode())
            left = size
            try:
                while left > 0:
                    left -= line.send(piece[:min(left, len(piece))])
            except OSError:
                pass
            try:
                return line.recv(4096)
            except OSError:
                return b""

    def test_a_gibibyte_to_an_endpoint_that_takes_json(self):
        self.assertIn(b" 413 ", self.send("/api/trips", GIB))

    def test_a_gibibyte_of_no_known_kind_is_refused(self):
        self.assertIn(b" 400 ", self.send("/api/uploads?name=film.bin", GIB))

    def test_a_gibibyte_upload_goes_to_disk_not_to_memory(self):
        got = self.send("/api/uploads?name=hills.tif", GIB)
        self.assertIn(b" 200 ", got)
        found = list(pathlib.Path(self.server.state, "uploads").rglob("hills.tif"))
        self.assertEqual([f.stat().st_size for f in found], [GIB])
        upload = found[0].parent.name
        self.assertLess(self.server.memory_mib()[1] - self.before, MORE_MIB, "the peak counts too")
        job = self.server.post("/api/grounds/build", {"name": "zeros", "elevation": [{"upload": upload}], "features": []})
        job = self.server.wait(job)
        self.assertEqual((job["state"], job["fault"]["code"]), ("failed", "bad_input"))
        self.server.call("DELETE", "/api/uploads/" + upload, expect=200)
        self.assertFalse(found[0].exists())

    def test_more_than_the_bound_is_refused_before_it_is_sent(self):
        self.assertIn(b" 413 ", self.send("/api/uploads?name=hills.tif", 3 * GIB, b"\0" * 1000))

    def test_an_upload_that_breaks_off_leaves_nothing(self):
        uploads = pathlib.Path(self.server.state, "uploads")

        def wait_until(so, what):
            until = time.time() + 60
            while not so():
                self.assertLess(time.time(), until, what)
                time.sleep(0.05)

        before = set(uploads.iterdir())
        with connect(self.server) as line:
            line.sendall(f"POST /api/uploads?name=broken.tif HTTP/1.1\r\nHost: 127.0.0.1:{self.server.port}\r\nX-Key: {self.server.key}\r\nX-Lodeway: 1\r\n"
                         f"Content-Length: {GIB}\r\n\r\n".encode() + b"x" * 100000)
            wait_until(lambda: list(uploads.rglob("*broken.tif")), "expected it to begin to arrive")
            self.assertEqual(list(uploads.rglob("broken.tif")), [], "half a file has no name of its own")
        wait_until(lambda: set(uploads.iterdir()) == before, "expected file and folder to be thrown away")

    def test_deep_json(self):
        status, _ = self.server.call("POST", "/api/trips", b'{"document":' + b"[" * 400000 + b"]" * 400000 + b"}")
        self.assertEqual(status, 400)


if __name__ == "__main__":
    main()
