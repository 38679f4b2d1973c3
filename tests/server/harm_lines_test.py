"""Connections made to harm: silent, endless, drop by drop, more than there is room for. Others are answered meanwhile."""
import socket
import threading
import time

from harm import HarmTest
from live import connect, main


class Lines(HarmTest):
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
            for _ in range(600):  # without waiting for each: those past the room are let in seconds later
                line = socket.socket()
                line.setblocking(False)
                line.connect_ex((self.server.host, self.server.port))
                lines.append(line)
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

    def test_many_at_once(self):
        def ask():
            for _ in range(20):
                self.server.get("/api/options")
        askers = [threading.Thread(target=ask) for _ in range(20)]
        for asker in askers:
            asker.start()
        for asker in askers:
            asker.join()


if __name__ == "__main__":
    main()
