package org.wearledger.intake;

import java.io.IOException;
import java.nio.file.FileSystems;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.PathMatcher;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;

/**
 * The files that the user's arguments name. A folder is searched through all its levels for report endings; the side
 * tables {@code ratings.csv}, {@code inventory.csv}, {@code prices.csv} and {@code repairs.csv} at its top are kept apart, anything else in
 * it is passed over by name; raw log pages ({@code .bin}) are kept apart, since a record names them. A folder in it whose name begins with an underscore is left aside, by name. A folder that holds {@code pack.json} is a pack: readings normalised earlier. A file named outright, or by a
 * pattern ({@code *}, {@code ?}, {@code **}), is always read.
 *
 * @param reports by name
 * @param pages raw log pages by their real place, links not followed
 * @param packs folders, by name
 * @param mappings files called {@code mapping.json}, each of which serves its folder and those below, by name
 * @param sideTables file name of a side table to the files found under it, by name
 */
public record FoundFiles(List<ReportFile> reports, Map<String, ReportFile> pages, List<ReportFile> packs, List<ReportFile> mappings, Map<String, List<ReportFile>> sideTables,
                         List<String> passedOver) {
    /** What makes a folder a pack. */
    public static final String PACK_FILE = "pack.json";
    /** What says of its folder, and of those below, how fields are called. */
    public static final String MAPPING_FILE = "mapping.json";
    private static final Set<String> SIDE_TABLES = Set.of("ratings.csv", "inventory.csv", "prices.csv", "repairs.csv", "decisions.csv");

    /** @throws InputMissingException when an argument names nothing */
    public static FoundFiles find(Collection<String> arguments) throws IOException {
        // Keyed by the real place, so that a file named twice is read once, under its first name in order.
        Map<Path, ReportFile> reports = new HashMap<>();
        Map<String, ReportFile> pages = new TreeMap<>();
        Map<Path, ReportFile> packs = new HashMap<>();
        Set<Path> mappings = new TreeSet<>();
        Map<String, List<ReportFile>> sideTables = new TreeMap<>();
        Set<Path> sideTablePlaces = new TreeSet<>();
        Set<String> passedOver = new TreeSet<>();
        for (String argument : new TreeSet<>(arguments)) {
            Path path = pathOrNull(argument);
            if (path != null && Files.isDirectory(path)) {
                FolderWalk walk = FolderWalk.of(path);
                mappings.addAll(walk.mappings());
                walk.packs().forEach((place, found) -> packs.putIfAbsent(place, ReportFile.of(found)));
                walk.files().forEach((place, found) -> {
                    ReportFile file = ReportFile.of(found);
                    boolean atTop = path.equals(found.getParent());
                    if (atTop && SIDE_TABLES.contains(found.getFileName().toString())) {
                        if (sideTablePlaces.add(place)) {
                            sideTables.computeIfAbsent(found.getFileName().toString(), k -> new ArrayList<>()).add(file);
                        }
                    } else if (file.isPage()) {
                        addPage(pages, found);
                    } else if (file.hasReportEnding()) {
                        reports.putIfAbsent(place, file);
                    } else {
                        passedOver.add(file.name());
                    }
                });
                if (walk.outputs().containsValue(path)) {
                    throw new InputMissingException(argument + " is an output of a sweep: it holds machines.csv, problems.csv and summary.md; name the folder of the reports");
                }
                walk.outputs().values().forEach(output -> passedOver.add(ReportFile.of(output).name() + " (an output of a sweep)"));
                walk.leftAside().values().forEach(aside -> passedOver.add(ReportFile.of(aside).name() + " (its name begins with _)"));
                walk.unreadable().forEach((place, found) -> reports.putIfAbsent(place, ReportFile.of(found)));
            } else if (path != null && ReportFile.isPage(argument) && Files.exists(path)) {
                addPage(pages, path);
            } else if (path != null && Files.exists(path)) {
                addNamed(path, path.getParent(), reports, mappings);
            } else if (path != null && ReportFile.isUndecodable(argument)) {
                // As a shell's pattern gives it; told when it is read.
                reports.putIfAbsent(path.toAbsolutePath(), ReportFile.of(path));
            } else {
                for (Path found : matching(argument)) {
                    if (ReportFile.isPage(found.toString())) {
                        addPage(pages, found);
                    } else {
                        addNamed(found, base(argument), reports, mappings);
                    }
                }
            }
        }
        if (reports.isEmpty() && packs.isEmpty() && pages.isEmpty()) {
            throw new InputMissingException("no report file (.json, .jsonl, .ndjson, .csv, each also .gz) and no pack in "
                + String.join(", ", new TreeSet<>(arguments)));
        }
        return new FoundFiles(byName(reports.values()), pages, byName(packs.values()), byName(mappings.stream().map(ReportFile::of).toList()), sideTables, List.copyOf(passedOver));
    }

    static boolean isMapping(Path file) {
        return file.endsWith(MAPPING_FILE);
    }

    /** A link that leads nowhere is there too: what it was to say of the reports is not known, and they are not read without it. */
    static boolean isThere(Path mapping) {
        return Files.isRegularFile(mapping) || Files.isSymbolicLink(mapping) && !Files.exists(mapping);
    }

    /** The file, and the mappings between it and the folder where it was looked for. */
    private static void addNamed(Path file, Path from, Map<Path, ReportFile> reports, Set<Path> mappings) throws IOException {
        if (!isMapping(file)) {
            reports.putIfAbsent(file.toRealPath(), ReportFile.of(file));
        }
        Path folder = file.getParent();
        while (true) {
            Path mapping = folder == null ? Path.of(MAPPING_FILE) : folder.resolve(MAPPING_FILE);
            if (isThere(mapping)) {
                mappings.add(mapping);
            }
            if (folder == null || folder.equals(from)) {
                return;
            }
            folder = folder.getParent();
        }
    }

    /** A link is no page, whatever it leads to: what its real place would be is not asked. */
    private static void addPage(Map<String, ReportFile> pages, Path found) {
        Path folder = found.toAbsolutePath().getParent();
        try {
            pages.putIfAbsent(folder.toRealPath().resolve(found.getFileName()).toString(), ReportFile.of(found));
        } catch (IOException e) {
            // The folder is gone since it was searched: then no record can name the page either.
            pages.putIfAbsent(found.toAbsolutePath().toString(), ReportFile.of(found));
        }
    }

    /** Pages that no record names are files of their own, each refused. */
    public List<ReportFile> pagesNotNamed(Collection<FileSummary> files) {
        Set<String> named = files.stream().flatMap(file -> file.pages().stream()).collect(Collectors.toSet());
        return byName(pages.entrySet().stream().filter(page -> !named.contains(page.getKey())).map(Map.Entry::getValue).toList());
    }

    private static List<ReportFile> byName(Collection<ReportFile> files) {
        return files.stream().sorted(Comparator.comparing(ReportFile::name)).toList();
    }

    private static Path pathOrNull(String argument) {
        try {
            return Path.of(argument);
        } catch (java.nio.file.InvalidPathException e) {
            // On Windows a pattern is no valid path.
            return null;
        }
    }

    private static int wild(String pattern) {
        return pattern.replaceAll("[*?\\[{].*", "").length();
    }

    /** The folder in which to look for what matches; {@code null} for that of the program. */
    private static Path base(String pattern) {
        String slashed = pattern.replace('\\', '/');
        String base = slashed.substring(0, Math.max(0, slashed.substring(0, wild(slashed)).lastIndexOf('/')));
        return !base.isEmpty() ? Path.of(base) : slashed.startsWith("/") ? Path.of("/") : null;
    }

    private static List<Path> matching(String pattern) throws IOException {
        String slashed = pattern.replace('\\', '/');
        int wild = wild(slashed);
        Path base = base(slashed);
        Path folder = base == null ? Path.of(".") : base;
        if (wild == slashed.length() || !Files.isDirectory(folder)) {
            throw new InputMissingException("no such file or folder: " + pattern);
        }
        PathMatcher matcher;
        try {
            matcher = FileSystems.getDefault().getPathMatcher("glob:" + slashed);
        } catch (java.util.regex.PatternSyntaxException e) {
            throw new InputMissingException("no such file, and no pattern either: " + pattern + " (" + e.getDescription() + ")");
        }
        List<Path> found = FolderWalk.of(folder).files().values().stream().map(p -> base == null ? p.normalize() : p)
            .filter(matcher::matches).sorted().toList();
        if (found.isEmpty()) {
            throw new InputMissingException("no file matches " + pattern);
        }
        return found;
    }
}
