# Never run on a real drive, only against an emulated controller: try it first on a machine that may be lost, with its backup checked.
"""Saves the raw health page of each NVMe drive of this machine, and an index that says whose it is, for "wearledger check" and "sweep".

Reads only: "Identify Controller" and "Get Log Page" 02h of the drives, and files under /sys and /proc. Run it as root:
    sudo python3 collect-linux.py --out reports/2025-q1
"""
import argparse
import csv
import ctypes
import datetime
import fcntl
import os
import pathlib
import re
import socket
import struct
import sys

# NVM Express Base Specification: "Get Log Page command", "Identify command".
GET_LOG_PAGE, IDENTIFY = 0x02, 0x06
HEALTH_LOG = 0x02                    # log identifier: SMART / Health Information
RETAIN_EVENT = 1 << 15               # leave an event of the log pending for the operating system
CONTROLLER = 0x01                    # what to identify
PAGE_BYTES, IDENTIFY_BYTES = 512, 4096
WHOLE_CONTROLLER = 0xFFFFFFFF
# linux/nvme_ioctl.h: _IOWR('N', 0x41, struct nvme_admin_cmd), 72 bytes; as on x86 and Arm.
NVME_IOCTL_ADMIN_CMD = 0xC0484E41
ADMIN_CMD = struct.Struct("=BBH III QQ II 6I II")
COLUMNS = ["schemaVersion", "file", "collectedAt", "machine.id", "machine.memoryBytes", "machine.swapUsedBytes",
           "drive.serial", "drive.model", "drive.firmware", "drive.capacityBytes"]


def read_from(device, opcode, namespace, dword10, length):
    """The bytes that the controller answers. Both opcodes used here only read."""
    answer = ctypes.create_string_buffer(length)
    command = bytearray(ADMIN_CMD.pack(opcode, 0, 0, namespace, 0, 0, 0, ctypes.addressof(answer), 0, length, dword10, 0, 0, 0, 0, 0, 0, 0))
    status = fcntl.ioctl(device, NVME_IOCTL_ADMIN_CMD, command)
    if status != 0:
        raise OSError(f"the drive refused command {opcode:02x}h, NVMe status {status:#x}")
    return answer.raw


def health_page(device):
    dwords = PAGE_BYTES // 4 - 1     # counted from 0
    page = read_from(device, GET_LOG_PAGE, WHOLE_CONTROLLER, dwords << 16 | RETAIN_EVENT | HEALTH_LOG, PAGE_BYTES)
    if not any(page):
        raise OSError("nothing but zeros: something stands between the drive and the system")
    return page


def drive_facts(identified):
    """Serial number, model and firmware: bytes 4 to 23, 24 to 63 and 64 to 71 of Identify Controller, ASCII padded with spaces."""
    def text(start, end):
        return identified[start:end].decode("ascii", "replace").strip(" \0")
    return {"drive.serial": text(4, 24), "drive.model": text(24, 64), "drive.firmware": text(64, 72)}


def capacity_bytes(controller):
    """Its namespaces together; sizes in /sys are always in units of 512 bytes."""
    sizes = pathlib.Path("/sys/class/nvme", controller).glob("nvme*n*/size")
    return sum(int(size.read_text()) for size in sizes) * 512 or None


def machine_facts():
    kilobytes = dict(line.split(":", 1) for line in pathlib.Path("/proc/meminfo").read_text().splitlines())
    total, free = (int(kilobytes[name].split()[0]) for name in ("SwapTotal", "SwapFree"))
    memory = pathlib.Path("/sys/devices/system/memory")
    blocks = len(list(memory.glob("memory[0-9]*")))   # what is installed; MemTotal leaves out what firmware and graphics keep
    return {"machine.swapUsedBytes": (total - free) * 1024,
            "machine.memoryBytes": blocks * int((memory / "block_size_bytes").read_text(), 16) if blocks else None}


def collect(controller, stem, facts, folder):
    """Writes the page and returns its row."""
    device = os.open(f"/dev/{controller}", os.O_RDONLY)
    try:
        page = health_page(device)
        drive = drive_facts(read_from(device, IDENTIFY, 0, CONTROLLER, IDENTIFY_BYTES))
    finally:
        os.close(device)
    name = f"{stem}-{controller}.bin"
    row = {**facts, **drive, "file": name, "drive.capacityBytes": capacity_bytes(controller)}
    with open(folder / name, "xb") as out:
        out.write(page)
    return row


def write_index(path, rows):
    """Whole or not at all: it gets its name when it is complete."""
    unfinished = path.with_suffix(".part")
    with open(unfinished, "x", newline="", encoding="utf-8") as out:
        table = csv.DictWriter(out, COLUMNS)
        table.writeheader()
        table.writerows(rows)
    os.rename(unfinished, path)


def agreed():
    try:
        return input("Go on? [y/N] ").strip().lower() == "y"
    except EOFError:                 # started without a terminal
        return False


def main():
    options = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    options.add_argument("--out", required=True, type=pathlib.Path, metavar="FOLDER", help="where page and index are written; made if it is not there")
    options.add_argument("--machine", default=socket.gethostname(), metavar="ID", help="a name that stays the same each quarter (default: the host name)")
    options.add_argument("--yes", action="store_true", help="do not ask before reading")
    chosen = options.parse_args()
    if os.geteuid() != 0:
        sys.exit("This needs administrator's rights: put sudo before the command. Nothing was read.")
    controllers = sorted(path.name for path in pathlib.Path("/dev").iterdir() if re.fullmatch(r"nvme\d+", path.name))
    if not controllers:
        sys.exit("No NVMe drive found under /dev. Nothing was read.")
    print(f"Reads, and changes nothing on, {', '.join(controllers)}; writes their pages and an index of {chosen.machine} into {chosen.out}.")
    if not chosen.yes and not agreed():
        sys.exit("Nothing was read. To go on without this question, add --yes.")

    now = datetime.datetime.now(datetime.timezone.utc).replace(microsecond=0)
    stem = re.sub(r"[^A-Za-z0-9._-]", "_", chosen.machine) + now.strftime("-%Y%m%dT%H%M%SZ")
    facts = {"schemaVersion": "1.0", "collectedAt": now.strftime("%Y-%m-%dT%H:%M:%SZ"), "machine.id": chosen.machine, **machine_facts()}
    chosen.out.mkdir(parents=True, exist_ok=True)
    rows, failed = [], False
    for controller in controllers:
        try:
            rows.append(collect(controller, stem, facts, chosen.out))
        except (OSError, ValueError) as error:   # the others are read all the same
            failed = True
            print(f"{controller}: no page: {error}", file=sys.stderr)
    if rows:
        write_index(chosen.out / f"{stem}.csv", rows)
        print(f"{len(rows)} of {len(controllers)} drives read: {stem}.csv")
    sys.exit(1 if failed else 0)


if __name__ == "__main__":
    main()
