package org.wearledger.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;

/** The built distribution, started as from a shell. */
record Started(int exitCode, String out, String err) {
    static final Path HOME = Path.of("target", "wearledger").toAbsolutePath();

    static Started launcher(Path scratch, Map<String, String> environment, Object... arguments) throws IOException, InterruptedException {
        List<String> command = new ArrayList<>(List.of(HOME.resolve("bin/wearledger").toString()));
        for (Object argument : arguments) {
            command.add(argument.toString());
        }
        Path out = Files.createTempFile(scratch, "out", ".txt");
        Path err = Files.createTempFile(scratch, "err", ".txt");
        ProcessBuilder builder = new ProcessBuilder(command).redirectOutput(out.toFile()).redirectError(err.toFile());
        builder.environment().putAll(environment);
        Process process = builder.start();
        if (!process.waitFor(5, TimeUnit.MINUTES)) {
            process.destroyForcibly();
            throw new AssertionError("still running: " + command + "\n" + Files.readString(err));
        }
        return new Started(process.exitValue(), Files.readString(out), Files.readString(err));
    }
}
