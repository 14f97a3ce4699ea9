package org.wearledger.cli;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.apache.commons.compress.archivers.cpio.CpioArchiveEntry;
import org.apache.commons.compress.archivers.cpio.CpioArchiveOutputStream;

/**
 * A machine of software alone with two NVMe controllers: QEMU without hardware help, a kernel of the distribution with NVMe built in, and a
 * file system in memory that holds Python, a first process and a script. The monitor (QMP, one JSON object a line) is its standard input and output.
 */
final class EmulatedMachine implements AutoCloseable {
    private static final String EMULATOR = "qemu-system-x86_64";
    private static final Path PYTHON = Path.of("/usr/bin/python3");
    private static final Pattern LIBRARY = Pattern.compile("(/\\S+\\.so\\S*)");
    private static final Pattern NOT_NEEDED = Pattern.compile("test|idlelib|tkinter|lib2to3|ensurepip|pydoc_data|__pycache__|dist-packages|turtledemo");
    private static final ObjectMapper JSON = new ObjectMapper();

    private final Process process;
    private final BufferedReader monitor;
    private final Path serialLine;
    private final Path console;

    private EmulatedMachine(Process process, Path serialLine, Path console) throws IOException {
        this.process = process;
        this.serialLine = serialLine;
        this.console = console;
        monitor = process.inputReader(StandardCharsets.UTF_8);
        monitor.readLine();
        ask("{\"execute\": \"qmp_capabilities\"}");
    }

    /** What must be installed first; {@code null} when all is there. */
    static String missing() throws IOException {
        return !Stream.of(System.getenv("PATH").split(":")).anyMatch(folder -> Files.isExecutable(Path.of(folder, EMULATOR))) ? EMULATOR + " (apt-get install qemu-system-x86)"
            : kernel() == null ? "a kernel with NVMe built in (apt-get install linux-image-cloud-amd64)"
            : !Files.isExecutable(PYTHON) ? "Python (apt-get install python3)" : null;
    }

    private static Path kernel() throws IOException {
        try (Stream<Path> files = Files.list(Path.of("/boot"))) {
            for (Path config : files.filter(file -> file.getFileName().toString().startsWith("config-")).sorted().toList()) {
                if (Files.readAllLines(config).contains("CONFIG_BLK_DEV_NVME=y")) {
                    return config.resolveSibling(config.getFileName().toString().replaceFirst("config", "vmlinuz"));
                }
            }
            return null;
        }
    }

    /** Stands still until {@link #run}. Its drives have the ids and serial numbers {@code VX000001} and {@code VX000002}, of 64 and 32 MiB. */
    static EmulatedMachine with(Path firstProcess, Path script, Path scratch) throws IOException, InterruptedException {
        Path memory = scratch.resolve("memory.cpio");
        try (CpioArchiveOutputStream archive = new CpioArchiveOutputStream(Files.newOutputStream(memory))) {
            Set<Path> folders = new LinkedHashSet<>();
            add(archive, folders, Path.of("/init"), firstProcess);
            add(archive, folders, Path.of("/").resolve(script.getFileName()), script);
            addPython(archive, folders);
        }
        Path serialLine = Files.createFile(scratch.resolve("serial"));
        Path console = scratch.resolve("console");
        ProcessBuilder builder = new ProcessBuilder(EMULATOR, "-accel", "tcg", "-cpu", "max", "-m", "1G", "-nodefaults", "-display", "none", "-S", "-no-reboot", "-no-shutdown", "-qmp", "stdio",
            "-serial", "file:" + console, "-serial", "file:" + serialLine, "-kernel", kernel().toString(), "-initrd", memory.toString(),
            "-append", "console=ttyS0 panic=-1 quiet",
            "-drive", "if=none,id=one,format=raw,file=" + blank(scratch, "one", 64), "-device", "nvme,id=VX000001,serial=VX000001,drive=one",
            "-drive", "if=none,id=two,format=raw,file=" + blank(scratch, "two", 32), "-device", "nvme,id=VX000002,serial=VX000002,drive=two");
        return new EmulatedMachine(builder.redirectError(scratch.resolve("emulator.log").toFile()).start(), serialLine, console);
    }

    private static Path blank(Path scratch, String name, int mebibytes) throws IOException {
        return Files.write(scratch.resolve(name + ".raw"), new byte[mebibytes << 20]);
    }

    private static void addPython(CpioArchiveOutputStream archive, Set<Path> folders) throws IOException, InterruptedException {
        Path standardLibrary = Path.of(said(PYTHON.toString(), "-c", "import sysconfig; print(sysconfig.get_path('stdlib'))").strip());
        List<Path> modules;
        try (Stream<Path> files = Files.walk(standardLibrary)) {
            modules = files.filter(file -> Files.isRegularFile(file) && !NOT_NEEDED.matcher(file.toString()).find()).toList();
        }
        Set<Path> libraries = new LinkedHashSet<>();
        for (Path program : Stream.concat(Stream.of(PYTHON), modules.stream().filter(file -> file.toString().endsWith(".so"))).toList()) {
            LIBRARY.matcher(said("ldd", program.toString())).results().forEach(found -> libraries.add(Path.of(found.group(1))));
        }
        libraries.removeAll(modules);
        add(archive, folders, PYTHON, PYTHON);
        for (Path file : Stream.concat(modules.stream(), libraries.stream()).toList()) {
            add(archive, folders, file, file);
        }
    }

    private static void add(CpioArchiveOutputStream archive, Set<Path> folders, Path name, Path file) throws IOException {
        for (int depth = 1; depth < name.getNameCount(); depth++) {
            Path folder = name.subpath(0, depth);
            if (folders.add(folder)) {
                CpioArchiveEntry entry = new CpioArchiveEntry(folder.toString());
                entry.setMode(CpioArchiveEntry.C_ISDIR | 0755);
                archive.putArchiveEntry(entry);
                archive.closeArchiveEntry();
            }
        }
        CpioArchiveEntry entry = new CpioArchiveEntry(name.subpath(0, name.getNameCount()).toString(), Files.size(file));
        entry.setMode(CpioArchiveEntry.C_ISREG | 0755);
        archive.putArchiveEntry(entry);
        Files.copy(file, archive);
        archive.closeArchiveEntry();
    }

    private static String said(String... command) throws IOException, InterruptedException {
        Process process = new ProcessBuilder(command).redirectErrorStream(true).start();
        try (InputStream out = process.getInputStream()) {
            String text = new String(out.readAllBytes(), StandardCharsets.UTF_8);
            process.waitFor();
            return text;
        }
    }

    /** What the monitor answers. */
    JsonNode ask(String command) throws IOException {
        OutputStream out = process.getOutputStream();
        out.write((command + "\n").getBytes(StandardCharsets.UTF_8));
        out.flush();
        return until("return", "error");
    }

    private JsonNode until(String... keys) throws IOException {
        for (String line = monitor.readLine(); line != null; line = monitor.readLine()) {
            JsonNode said = JSON.readTree(line);
            if (Stream.of(keys).anyMatch(key -> said.has(key) || said.path("event").asText().equals(key))) {
                return said;
            }
        }
        throw new IOException("the emulator ended");
    }

    /** Until it switches itself off; its drives can be asked for afterwards. The lines of its second serial line. */
    List<String> run() throws IOException {
        ask("{\"execute\": \"cont\"}");
        until("SHUTDOWN");
        return Files.readAllLines(serialLine);
    }

    /** What its system said, for the reader of a failure. */
    String console() throws IOException {
        return Files.readString(console, StandardCharsets.ISO_8859_1);
    }

    @Override
    public void close() throws IOException {
        process.destroyForcibly();
        monitor.close();
    }
}
