package org.wearledger.intake;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Set;
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

    /** @throws InputMissingException when an argument names nothing, or there is nothing to read */
    public static FoundFiles find(Collection<String> arguments) throws IOException {
        return FileSearch.of(new TreeSet<>(arguments));
    }

    static boolean isMapping(Path file) {
        return file.endsWith(MAPPING_FILE);
    }

    /** A link that leads nowhere is there too: what it was to say of the reports is not known, and they are not read without it. */
    static boolean isThere(Path mapping) {
        return Files.isRegularFile(mapping) || Files.isSymbolicLink(mapping) && !Files.exists(mapping);
    }

    /** Pages that no record names are files of their own, each refused. */
    public List<ReportFile> pagesNotNamed(Collection<FileSummary> files) {
        Set<String> named = files.stream().flatMap(file -> file.pages().stream()).collect(Collectors.toSet());
        return byName(pages.entrySet().stream().filter(page -> !named.contains(page.getKey())).map(Map.Entry::getValue).toList());
    }

    static List<ReportFile> byName(Collection<ReportFile> files) {
        return files.stream().sorted(Comparator.comparing(ReportFile::name)).toList();
    }
}
