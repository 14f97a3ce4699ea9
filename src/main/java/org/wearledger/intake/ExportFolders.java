package org.wearledger.intake;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.wearledger.model.FolderDraft;

/** Exports that one mapping serves, and that mapping as it may be. */
public final class ExportFolders {
    /** Of the files of one folder, first and last by name: what is settled by the course of time shows there. */
    private static final int MOST_FILES = 12;

    private record Export(Path file, ExportSample sample) {
        static Optional<Export> of(Path file) throws IOException {
            return MappingDrafter.best(ExportSample.of(file)).map(sample -> new Export(file, sample));
        }

        boolean isInReportForm() {
            return sample.headings().contains(ReportField.MACHINE_ID.dotted()) && sample.headings().contains(ReportField.SERIAL.dotted());
        }
    }

    private ExportFolders() {
    }

    /**
     * The file, and those beside it that are like it.
     *
     * @throws InputMissingException when the file holds no record that can be read
     */
    public static FolderDraft around(Path file) throws IOException {
        Export named = Export.of(file).orElseThrow(() -> new InputMissingException(file + " holds no record that can be read; wearledger check says why"));
        List<Export> like = new ArrayList<>(List.of(named));
        try (Stream<Path> beside = Files.list(file.toAbsolutePath().getParent())) {
            for (Path other : some(beside.map(path -> file.resolveSibling(path.getFileName())).filter(path -> isReport(path) && !path.equals(file)).sorted().toList())) {
                Export.of(other).filter(export -> export.sample.isLike(named.sample)).ifPresent(like::add);
            }
        }
        return of(file.getParent() == null ? Path.of("") : file.getParent(), like, List.of());
    }

    /**
     * One for each folder whose exports are alike, as high as they are.
     *
     * @throws InputMissingException when no file below the folder is an export that needs a mapping
     */
    public static List<FolderDraft> below(Path folder) throws IOException {
        Map<Path, List<Path>> byFolder = FoundFiles.find(List.of(folder.toString())).reports().stream().map(file -> Path.of(file.name()))
            .collect(Collectors.groupingBy(Path::getParent, TreeMap::new, Collectors.toList()));
        List<Export> exports = new ArrayList<>();
        for (List<Path> files : byFolder.values()) {
            for (Path file : some(files)) {
                Export.of(file).filter(export -> !export.isInReportForm()).ifPresent(exports::add);
            }
        }
        if (exports.isEmpty()) {
            throw new InputMissingException("no export that needs a mapping in " + folder + "; wearledger check says what is there");
        }
        List<FolderDraft> groups = new ArrayList<>();
        add(folder, exports, groups);
        return groups;
    }

    private static void add(Path folder, List<Export> below, List<FolderDraft> to) {
        List<List<Export>> alike = alike(below);
        List<Export> here = alike.size() == 1 ? below : below.stream().filter(export -> folder.equals(export.file.getParent())).toList();
        if (!here.isEmpty()) {
            List<Export> most = alike(here).stream().reduce((one, other) -> other.size() > one.size() ? other : one).orElseThrow();
            to.add(of(folder, most, here.stream().filter(export -> !most.contains(export)).toList()));
        }
        if (alike.size() > 1) {
            for (Path inner : new TreeSet<>(below.stream().filter(export -> !here.contains(export)).map(export -> folder.resolve(folder.relativize(export.file).getName(0))).toList())) {
                add(inner, below.stream().filter(export -> export.file.startsWith(inner)).toList(), to);
            }
        }
    }

    private static List<List<Export>> alike(List<Export> exports) {
        List<List<Export>> groups = new ArrayList<>();
        for (Export export : exports) {
            groups.stream().filter(group -> group.get(0).sample.isLike(export.sample)).findFirst().ifPresentOrElse(group -> group.add(export), () -> groups.add(new ArrayList<>(List.of(export))));
        }
        return groups;
    }

    private static FolderDraft of(Path folder, List<Export> exports, List<Export> others) {
        return new FolderDraft(folder.toString(), names(exports), names(others), MappingDrafter.of(ExportSample.joined(exports.stream().map(Export::sample).toList())));
    }

    private static List<String> names(List<Export> exports) {
        return exports.stream().map(export -> export.file.toString()).toList();
    }

    private static boolean isReport(Path path) {
        return !FoundFiles.isMapping(path) && Files.isRegularFile(path) && ReportFile.of(path).hasReportEnding();
    }

    private static List<Path> some(List<Path> files) {
        int half = MOST_FILES / 2;
        return files.size() <= MOST_FILES ? files : Stream.concat(files.subList(0, half).stream(), files.subList(files.size() - half, files.size()).stream()).toList();
    }
}
