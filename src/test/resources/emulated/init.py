#!/usr/bin/python3
"""First and only process of an emulated machine: uses its first drive a little, collects, and sends what was written to the second serial line."""
import base64
import ctypes
import mmap
import os
import pathlib
import subprocess
import sys
import time

POWER_OFF = 0x4321FEDC
MEBIBYTE = 1 << 20
system = ctypes.CDLL(None)


def use(drive):
    """Seven mebibytes written, three read, past the system's cache."""
    device = os.open(drive, os.O_RDWR | os.O_DIRECT)
    block = mmap.mmap(-1, MEBIBYTE)
    for i in range(7):
        os.pwritev(device, [block], i * MEBIBYTE)
    for i in range(3):
        os.preadv(device, [block], i * MEBIBYTE)
    os.close(device)


def collect(*options, **how):
    done = subprocess.run([sys.executable, "/collect-linux.py", "--out", "/out", "--machine", "LT EMU/1", *options], capture_output=True, text=True, **how)
    return f"exit {done.returncode}: {(done.stdout + done.stderr).strip()}"


def main():
    for kind, place in ("proc", "/proc"), ("sysfs", "/sys"), ("devtmpfs", "/dev"):
        os.makedirs(place, exist_ok=True)
        system.mount(kind.encode(), place.encode(), kind.encode(), 0, None)
    with open("/dev/ttyS1", "w") as line:
        while not all(os.path.exists(f"/dev/nvme{i}n1") for i in (0, 1)):
            time.sleep(0.1)
        use("/dev/nvme0n1")
        print("as a user:", collect("--yes", user=1000), file=line)
        print("not agreed:", collect(input="n\n"), file=line)
        print("nobody there:", collect(stdin=subprocess.DEVNULL), file=line)
        print("agreed:", collect(input="y\n"), file=line)
        for file in sorted(pathlib.Path("/out").iterdir()):
            print("file:", file.name, base64.b64encode(file.read_bytes()).decode(), file=line)


try:
    main()
finally:
    system.sync()
    system.reboot(POWER_OFF)
