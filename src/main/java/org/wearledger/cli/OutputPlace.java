package org.wearledger.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.List;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine;

/** Where outputs may not go. */
final class OutputPlace {
    private OutputPlace() {
    }

    /** An output inside a swept folder would be read as reports by the next sweep. */
    static void requireOutside(Path out, List<String> reports, CommandLine command) {
        for (String argument : reports) {
            try {
                Path folder = Path.of(argument);
                if (Files.isDirectory(folder) && (plain(out).startsWith(plain(folder)) || real(out).startsWith(real(folder)))) {
                    throw new ParameterException(command, "--out " + out + " lies inside " + argument
                        + ": the next sweep would read it as reports; choose a folder outside");
                }
            } catch (InvalidPathException e) {
                // A pattern, which on Windows is no path: it names no folder.
                continue;
            }
        }
    }

    private static Path plain(Path path) {
        return path.toAbsolutePath().normalize();
    }

    /** Links followed, as far as the path is there. */
    private static Path real(Path path) {
        Path there = path.toAbsolutePath();
        try {
            return there.toRealPath();
        } catch (IOException e) {
            return there.getParent() == null ? there : real(there.getParent()).resolve(there.getFileName()).normalize();
        }
    }
}
