"""Made to harm: huge bodies, silent and endless connections, ground files that lie. Refused, alive, memory bounded."""
import os
import pathlib
import sqlite3
import struct
import tempfile
import threading
import time

from live import LiveTest, connect, main

GIB = 1 << 30
MORE_MIB = 80  # what a harmful request may add to the server's memory


class Harm(LiveTest):
    def setUp(self):
        self.before = self.server.memory_mib()[0]

    def tearDown(self):
        self.assertTrue(self.server.alive())
        after = self.server.memory_mib()
        self.assertLess(after[0] - self.before, MORE_MIB, f"memory grew from {self.before:.0f} to {after[0]:.0f} MiB")

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

    def test_two_hundred_silent_connections(self):
        lines = [connect(self.server) for _ in range(200)]
        try:
            begun = time.time()
            for _ in range(20):
                self.assertTrue(self.server.alive())
            self.assertLess(time.time() - begun, 4, "others are answered meanwhile")
            lines[0].settimeout(15)
            self.assertEqual(lines[0].recv(10), b"", "a silent line is cut")
        finally:
            for line in lines:
                line.close()

    def test_more_connections_than_there_is_room_for(self):
        lines = []
        try:
            for _ in range(600):
                lines.append(connect(self.server))
            time.sleep(6)
            self.assertTrue(self.server.alive())
        finally:
            for line in lines:
                line.close()

    def test_a_head_without_end(self):
        with connect(self.server) as line:
            line.sendall(b"GET / HTTP/1.1\r\n")
            sent = 0
            try:
                while sent < 50 << 20:
                    sent += line.send(b"X-More: " + b"a" * 1000 + b"\r\n")
            except OSError:
                pass
            self.assertLess(sent, 20 << 20, "cut long before")

    def test_a_head_drop_by_drop(self):
        with connect(self.server) as line:
            line.sendall(b"GET / HTTP/1.1\r\n")
            begun = time.time()
            try:
                while time.time() - begun < 30:
                    line.sendall(b"X")
                    time.sleep(0.5)
            except OSError:
                pass
            self.assertLess(time.time() - begun, 25)

    def test_deep_json(self):
        status, _ = self.server.call("POST", "/api/trips", b'{"document":' + b"[" * 400000 + b"]" * 400000 + b"}")
        self.assertEqual(status, 400)

    def test_many_at_once(self):
        def ask():
            for _ in range(20):
                self.server.get("/api/options")
        askers = [threading.Thread(target=ask) for _ in range(20)]
        for asker in askers:
            asker.start()
        for asker in askers:
            asker.join()


class HarmfulGround(LiveTest):
    """Ground files that are none, or lie."""

    @classmethod
    def setUpClass(cls):
        super().setUpClass()
        cls.folder = tempfile.TemporaryDirectory(prefix="lodeway-harm-")
        ground = cls.server.get("/api/grounds/" + cls.server.demo_ground())
        cls.good = pathlib.Path(ground["file"]).read_bytes()
        cls.before = cls.server.memory_mib()[0]

    @classmethod
    def tearDownClass(cls):
        cls.folder.cleanup()
        super().tearDownClass()

    def write(self, name, data):
        path = pathlib.Path(self.folder.name, name)
        path.write_bytes(data)
        return str(path)

    def changed(self, name, *statements):
        """The good ground with SQL done to it."""
        path = self.write(name, self.good)
        db = sqlite3.connect(path)
        db.execute("PRAGMA writable_schema=ON")
        for statement in statements:
            db.executescript(statement)
        db.commit()
        db.close()
        return path

    def refused(self, path, seconds=120):
        begun = time.time()
        status, got = self.server.call("POST", "/api/grounds/open", {"path": path})
        self.assertIn(status, (400, 413, 422), got)
        self.assertLess(time.time() - begun, seconds)
        self.assertTrue(self.server.alive())
        self.assertLess(self.server.memory_mib()[0] - self.before, MORE_MIB)
        return got["fault"]

    def test_no_ground_at_all(self):
        for name, data in (("empty.gpkg", b""), ("garbage.gpkg", os.urandom(1 << 20)), ("text.gpkg", b"hello\n" * 1000),
                           ("head.gpkg", self.good[:100] + os.urandom(1 << 20)), ("cut.gpkg", self.good[:len(self.good) // 2]),
                           ("zeros.gpkg", self.good[:4096] + b"\0" * (1 << 20))):
            with self.subTest(name):
                self.assertIn(name, str(self.refused(self.write(name, data))))
        self.refused("/etc/passwd")
        self.refused("/no/such/file.gpkg")
        self.refused("/dev/zero")
        self.refused("relative.gpkg")
        self.refused(self.folder.name)

    def test_wrong_schema(self):
        tables = [r[0] for r in sqlite3.connect(self.write("t.gpkg", self.good)).execute(
            "SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite_%' AND name NOT LIKE 'rtree_%'")]
        self.assertIn("gpkg_contents", tables)
        for table in ("gpkg_contents", "gpkg_spatial_ref_sys", "gpkg_geometry_columns"):
            with self.subTest(table):
                self.refused(self.changed(f"no-{table}.gpkg", f"DROP TABLE {table};"))

    def test_views_and_triggers_with_odd_sql(self):
        endless = "WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n) SELECT "
        contents = [r[1] for r in sqlite3.connect(self.write("c.gpkg", self.good)).execute("PRAGMA table_info(gpkg_contents)")]
        columns = ", ".join(f"i AS {c}" for c in contents)
        path = self.changed("endless.gpkg", "ALTER TABLE gpkg_contents RENAME TO kept;", f"CREATE VIEW gpkg_contents AS {endless}{columns} FROM n;")
        self.assertIn("a view", self.refused(path, seconds=10)["message"])
        # A trigger runs when something is written; a ground is only read. It is the same ground as before.
        path = self.changed("trigger.gpkg", "CREATE TRIGGER t AFTER UPDATE ON gpkg_contents BEGIN DELETE FROM gpkg_contents; END;")
        before = pathlib.Path(path).read_bytes()
        self.assertEqual(self.server.post("/api/grounds/open", {"path": path})["summary"]["rows"], 1200)
        self.assertEqual(pathlib.Path(path).read_bytes(), before)

    def test_huge_declared_sizes(self):
        for name, statement in (
                ("tile.gpkg", "UPDATE gpkg_tile_matrix SET tile_width = 1000000, tile_height = 1000000;"),
                ("pixel.gpkg", "UPDATE gpkg_tile_matrix SET pixel_x_size = 1e-9, pixel_y_size = 1e-9;"),
                ("extent.gpkg", "UPDATE gpkg_tile_matrix_set SET max_x = 1e300, max_y = 1e300;")):
            with self.subTest(name):
                self.refused(self.changed(name, statement))

    def test_a_declared_size_that_nobody_believes(self):
        path = self.changed("matrix.gpkg", "UPDATE gpkg_tile_matrix SET matrix_width = 2000000000, matrix_height = 2000000000;")
        status, got = self.server.call("POST", "/api/grounds/open", {"path": path})
        if status == 200:  # the extent and the pixel's size decide
            self.assertEqual((got["summary"]["rows"], got["summary"]["cols"]), (1200, 1200))
        self.assertLess(self.server.memory_mib()[0] - self.before, MORE_MIB)

    def test_geometry_that_lies_about_its_length(self):
        path = self.write("lies.gpkg", self.good)
        db = sqlite3.connect(path)
        layer, column = db.execute("SELECT table_name, column_name FROM gpkg_geometry_columns ORDER BY table_name DESC LIMIT 1").fetchone()
        for (name,) in db.execute("SELECT name FROM sqlite_master WHERE type = 'trigger'").fetchall():
            db.execute(f'DROP TRIGGER "{name}"')
        # A GeoPackage head, then a line of four thousand million points that are not there.
        head = b"GP\0\x01" + struct.pack("<i", 32629)
        db.execute(f'UPDATE "{layer}" SET "{column}" = ?', (head + b"\x01" + struct.pack("<II", 2, 0xFFFFFFFF),))
        db.commit()
        db.close()
        self.refused(path)


if __name__ == "__main__":
    main()
