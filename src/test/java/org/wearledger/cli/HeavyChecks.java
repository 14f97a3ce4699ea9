package org.wearledger.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/** Runs {@code check} on folder after folder in one Java with a small heap, by the classes of the built distribution. */
final class HeavyChecks {
    private static final List<String> SMALL_HEAP = List.of("-Xmx96m", "-XX:MaxDirectMemorySize=16m", "-XX:+UseSerialGC", "-XX:TieredStopAtLevel=1");

    private HeavyChecks() {
    }

    static Started start(Path scratch, List<Path> folders) throws IOException, InterruptedException {
        List<String> options = new ArrayList<>(SMALL_HEAP);
        options.addAll(Started.classes(Path.of("target", "test-classes")));
        options.add(HeavyChecks.class.getName());
        folders.forEach(folder -> options.add(folder.toString()));
        return Started.java(scratch, options);
    }

    /** Where the outcome of a folder lies: beside it. */
    static Path outcome(Path folder) {
        return folder.resolveSibling(folder.getFileName() + ".txt");
    }

    /** @param folders each checked by itself, one after another */
    public static void main(String[] folders) throws IOException {
        for (String folder : folders) {
            Runs check = Runs.of("check", folder, "--format", "json");
            System.err.print(check.err());
            Files.writeString(outcome(Path.of(folder)), check.out());
        }
    }
}
