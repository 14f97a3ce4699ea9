package org.wearledger.badinput;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * A folder of {@code src/test/resources/bad-input}: inputs, or a recipe that makes them, and what is to be said of them.
 * The README there says how one is added.
 */
public record BadInputCase(Path folder, JsonNode settings) {
    private static final Path CORPUS = Path.of("src", "test", "resources", "bad-input");
    private static final String INPUTS = "in";
    private static final ObjectMapper JSON = new ObjectMapper();

    public static List<BadInputCase> all() {
        try (Stream<Path> folders = Files.list(CORPUS)) {
            return folders.filter(Files::isDirectory).sorted().map(BadInputCase::of).toList();
        } catch (IOException e) {
            throw new java.io.UncheckedIOException(e);
        }
    }

    private static BadInputCase of(Path folder) {
        try {
            Path settings = folder.resolve("case.json");
            return new BadInputCase(folder, Files.exists(settings) ? JSON.readTree(settings.toFile()) : JSON.createObjectNode());
        } catch (IOException e) {
            throw new java.io.UncheckedIOException(e);
        }
    }

    @Override
    public String toString() {
        return name();
    }

    public String name() {
        return folder.getFileName().toString();
    }

    /** Only a whole sweep tells what is expected: it has to do with ratings or prices. */
    public boolean needsSweep() {
        return settings.path("sweep").asBoolean();
    }

    /** Too large for the unit tests: read by a process of its own with a small heap. */
    public boolean isHeavy() {
        return settings.path("heavy").asBoolean();
    }

    /** Too large for each build. */
    public boolean isThorough() {
        return settings.path("thorough").asBoolean();
    }

    public LocalDate asOf() {
        return settings.has("asOf") ? LocalDate.parse(settings.get("asOf").asText()) : null;
    }

    /** {@code null} for none. */
    public Path mapping() {
        return settings.has("mapping") ? folder.resolve(settings.get("mapping").asText()) : null;
    }

    /** Lines of {@code expected.txt} without its introduction. */
    public String expected() throws IOException {
        Path file = folder.resolve("expected.txt");
        return Files.exists(file) ? Files.readAllLines(file).stream().filter(line -> !line.startsWith("#")).collect(Collectors.joining("\n")) : "";
    }

    /** Puts the inputs into a folder, which is made. */
    public void makeIn(Path target) throws IOException {
        Files.createDirectories(target);
        Path inputs = folder.resolve(INPUTS);
        if (Files.isDirectory(inputs)) {
            try (Stream<Path> files = Files.walk(inputs)) {
                for (Path file : files.filter(Files::isRegularFile).toList()) {
                    Path copy = target.resolve(inputs.relativize(file).toString());
                    Files.createDirectories(copy.getParent());
                    Files.copy(file, copy);
                }
            }
        }
        for (JsonNode recipe : settings.path("files")) {
            Recipe.make(recipe, target);
        }
    }
}
