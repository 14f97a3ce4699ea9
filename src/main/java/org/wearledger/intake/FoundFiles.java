package org.wearledger.intake;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.FileSystems;
import java.nio.file.FileVisitOption;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.PathMatcher;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Stream;

/**
 * The files that the user's arguments name. A folder is searched through all its levels for report endings; the side
 * tables {@code ratings.csv}, {@code inventory.csv} and {@code prices.csv} at its top are kept apart, anything else in
 * it is passed over by name. A file named outright, or by a pattern ({@code *}, {@code ?}, {@code **}), is always read.
 *
 * @param reports by name
 * @param sideTables file name of a side table to the files found under it, by name
 */
public record FoundFiles(List<ReportFile> reports, Map<String, List<ReportFile>> sideTables, List<String> passedOver) {
    private static final Set<String> SIDE_TABLES = Set.of("ratings.csv", "inventory.csv", "prices.csv");

    /** @throws InputMissingException when an argument names nothing */
    public static FoundFiles find(Collection<String> arguments) throws IOException {
        // Keyed by the real place, so that a file named twice is read once, under its first name in order.
        Map<Path, ReportFile> reports = new TreeMap<>();
        Map<String, List<ReportFile>> sideTables = new TreeMap<>();
        Set<Path> sideTablePlaces = new TreeSet<>();
        Set<String> passedOver = new TreeSet<>();
        for (String argument : new TreeSet<>(arguments)) {
            Path path = pathOrNull(argument);
            if (path != null && Files.isDirectory(path)) {
                for (Path found : filesUnder(path)) {
                    ReportFile file = reportFile(found);
                    boolean atTop = path.equals(found.getParent());
                    if (atTop && SIDE_TABLES.contains(found.getFileName().toString())) {
                        if (sideTablePlaces.add(found.toRealPath())) {
                            sideTables.computeIfAbsent(found.getFileName().toString(), k -> new ArrayList<>()).add(file);
                        }
                    } else if (file.hasReportEnding()) {
                        reports.putIfAbsent(found.toRealPath(), file);
                    } else {
                        passedOver.add(file.name());
                    }
                }
            } else if (path != null && Files.exists(path)) {
                reports.putIfAbsent(path.toRealPath(), reportFile(path));
            } else {
                for (Path found : matching(argument)) {
                    reports.putIfAbsent(found.toRealPath(), reportFile(found));
                }
            }
        }
        if (reports.isEmpty()) {
            throw new InputMissingException("no report file (.json, .jsonl, .ndjson, .csv, each also .gz) in "
                + String.join(", ", new TreeSet<>(arguments)));
        }
        List<ReportFile> ordered = new ArrayList<>(reports.values());
        ordered.sort(java.util.Comparator.comparing(ReportFile::name));
        return new FoundFiles(ordered, sideTables, List.copyOf(passedOver));
    }

    /** Of the reports' text, as far as the files' sizes tell: compressed ones count eightfold. A file that is gone counts nothing. */
    public long estimatedBytes() {
        long bytes = 0;
        for (ReportFile file : reports) {
            try {
                bytes += Files.size(Path.of(file.path())) * (file.name().toLowerCase(java.util.Locale.ROOT).endsWith(".gz") ? 8 : 1);
            } catch (IOException e) {
                // Told when it is read.
                bytes += 0;
            }
        }
        return bytes;
    }

    private static Path pathOrNull(String argument) {
        try {
            return Path.of(argument);
        } catch (java.nio.file.InvalidPathException e) {
            // On Windows a pattern is no valid path.
            return null;
        }
    }

    private static ReportFile reportFile(Path path) {
        return new ReportFile(path.toAbsolutePath().toString(), path.toString().replace('\\', '/'));
    }

    private static List<Path> filesUnder(Path folder) throws IOException {
        try (Stream<Path> walk = Files.walk(folder, FileVisitOption.FOLLOW_LINKS)) {
            return walk.filter(Files::isRegularFile).sorted().toList();
        } catch (UncheckedIOException e) {
            throw e.getCause();
        }
    }

    private static List<Path> matching(String pattern) throws IOException {
        String slashed = pattern.replace('\\', '/');
        int wild = slashed.replaceAll("[*?\\[{].*", "").length();
        String base = slashed.substring(0, Math.max(0, slashed.substring(0, wild).lastIndexOf('/')));
        Path folder = Path.of(base.isEmpty() ? slashed.startsWith("/") ? "/" : "." : base);
        if (wild == slashed.length() || !Files.isDirectory(folder)) {
            throw new InputMissingException("no such file or folder: " + pattern);
        }
        PathMatcher matcher = FileSystems.getDefault().getPathMatcher("glob:" + slashed);
        List<Path> found = filesUnder(folder).stream().map(p -> base.isEmpty() && !slashed.startsWith("/") ? p.normalize() : p)
            .filter(matcher::matches).toList();
        if (found.isEmpty()) {
            throw new InputMissingException("no file matches " + pattern);
        }
        return found;
    }
}
