package org.wearledger.cli;

import java.io.IOException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/** The built distribution, started as from a shell. */
record Started(int exitCode, String out, String err) {
    static final Path HOME = Path.of("target", "wearledger").toAbsolutePath();

    static Started launcher(Path scratch, Map<String, String> environment, Object... arguments) throws IOException, InterruptedException {
        List<String> command = new ArrayList<>(List.of(HOME.resolve("bin/wearledger").toString()));
        for (Object argument : arguments) {
            command.add(argument.toString());
        }
        return started(scratch, environment, command);
    }

    /** The Java that runs the tests, with these words behind it. */
    static Started java(Path scratch, List<String> words) throws IOException, InterruptedException {
        List<String> command = new ArrayList<>(List.of(Path.of(System.getProperty("java.home"), "bin", "java").toString()));
        command.addAll(words);
        return started(scratch, Map.of(), command);
    }

    /** Java's options for the classes of the distribution, and of a folder if given. The archive is the launcher's; where it does not fit, Java does without. */
    static List<String> classes(Path... folder) throws IOException {
        Path jar = only("lib", "wearledger-*.jar");
        return List.of("-XX:SharedArchiveFile=" + only("classes", "*.jsa"), "-cp", jar + Stream.of(folder).map(each -> ":" + each.toAbsolutePath()).collect(Collectors.joining()));
    }

    private static Path only(String place, String name) throws IOException {
        try (DirectoryStream<Path> files = Files.newDirectoryStream(HOME.resolve(place), name)) {
            return files.iterator().next();
        }
    }

    private static Started started(Path scratch, Map<String, String> environment, List<String> command) throws IOException, InterruptedException {
        Path out = Files.createTempFile(scratch, "out", ".txt");
        Path err = Files.createTempFile(scratch, "err", ".txt");
        ProcessBuilder builder = new ProcessBuilder(command).redirectOutput(out.toFile()).redirectError(err.toFile());
        builder.environment().putAll(environment);
        Process process = builder.start();
        // Only a run that hangs is to be found: a busy machine takes its time.
        if (!process.waitFor(10, TimeUnit.MINUTES)) {
            process.destroyForcibly();
            throw new AssertionError("still running: " + command + "\n" + Files.readString(err));
        }
        return new Started(process.exitValue(), Files.readString(out), Files.readString(err));
    }

    /** @return a JAVA_HOME whose {@code java} is this script */
    static Path standInForJava(Path scratch, String script) throws IOException {
        Path java = Files.createDirectories(scratch.resolve("java/bin")).resolve("java");
        Files.writeString(java, "#!/bin/sh\n" + script);
        if (!java.toFile().setExecutable(true)) {
            throw new IOException("cannot be made executable: " + java);
        }
        return scratch.resolve("java");
    }
}
