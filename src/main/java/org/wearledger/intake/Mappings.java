package org.wearledger.intake;

import java.io.IOException;
import java.io.Serializable;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.wearledger.model.MappingUse;

/**
 * Which mapping serves which file: that of the nearest folder, the file's own or one above it, in which a {@code mapping.json} was
 * found; where none was, the mapping of the whole request.
 */
public final class Mappings implements Serializable {
    private final String requestedName;
    private final FieldMapping requested;
    /** By the folder's absolute path, without dots. */
    private final TreeMap<String, FieldMapping> byFolder = new TreeMap<>();
    private final TreeMap<String, String> nameByFolder = new TreeMap<>();
    private final Pseudonyms pseudonyms;

    private Mappings(String requestedName, FieldMapping requested, Pseudonyms pseudonyms) {
        this.requestedName = requestedName;
        this.requested = requested.with(pseudonyms);
        this.pseudonyms = pseudonyms;
    }

    /**
     * @param requested the file that a request names, {@code null} for none
     * @param found the mappings in folders
     * @param packs whose tables no mapping serves but their own: what else is written there is this program's
     * @throws InputMissingException when one of them is not there or is no mapping; the message says all that is wrong with them, and what is allowed
     */
    public static Mappings load(String requested, List<ReportFile> found, List<ReportFile> packs, Pseudonyms pseudonyms) throws IOException {
        Mappings mappings = new Mappings(requested, requested == null ? FieldMapping.none() : FieldMapping.load(Path.of(requested)), pseudonyms);
        packs.forEach(pack -> mappings.byFolder.put(Path.of(pack.path()).normalize().toString(), FieldMapping.none().with(pseudonyms)));
        List<String> faults = new ArrayList<>();
        for (ReportFile file : found) {
            try {
                mappings.byFolder.put(folder(file.name()).toString(), MappingDocument.load(Path.of(file.path()), file.name()).with(pseudonyms));
                mappings.nameByFolder.putIfAbsent(folder(file.name()).toString(), file.name());
            } catch (InputMissingException e) {
                faults.add(e.getMessage());
            }
        }
        if (!faults.isEmpty()) {
            throw new InputMissingException(pseudonyms.isNone() ? String.join("; ", faults)
                : faults.size() + " of " + found.size() + " files called " + FoundFiles.MAPPING_FILE + " cannot be used; without --pseudonymise it is said why");
        }
        return mappings;
    }

    private static Path folder(String name) {
        return Path.of(ReportFile.decodable(name)).toAbsolutePath().normalize().getParent();
    }

    /** @param file its name as the user gave it */
    public FieldMapping of(String file) {
        String folder = folderServing(file);
        return folder == null ? requested : byFolder.get(folder);
    }

    /** The file of the mapping that serves a file; {@code null} for none. */
    public Path place(String file) {
        String folder = folderServing(file);
        String mapping = folder != null ? nameByFolder.get(folder) : requestedName;
        return mapping == null ? null : Path.of(mapping);
    }

    /** {@code null} for none. */
    private String folderServing(String file) {
        if (byFolder.isEmpty()) {
            return null;
        }
        Path folder = folder(file);
        while (folder != null && !byFolder.containsKey(folder.toString())) {
            folder = folder.getParent();
        }
        return folder == null ? null : folder.toString();
    }

    /** Under which names its uses are printed. */
    public Pseudonyms pseudonyms() {
        return pseudonyms;
    }

    /** Of the files, as problems name them, those with a reading in which a mapping read anything under another name. */
    public Set<String> filesReadUnder(Collection<FileSummary> files) {
        Set<String> read = new TreeSet<>();
        files.stream().filter(file -> file.isRead() && of(file.file()).readsAny(file.namesMet())).forEach(file -> read.add(pseudonyms.file(file.file())));
        return read;
    }

    /** What serves which of the files: first what the request names, then by folder; last, where there is any mapping, the files that have none. */
    public List<MappingUse> uses(List<ReportFile> files, List<ReportFile> packs) {
        Map<String, TreeSet<String>> served = new LinkedHashMap<>();
        if (requestedName != null) {
            served.put(requestedName.replace('\\', '/'), new TreeSet<>());
        }
        nameByFolder.values().stream().sorted(Comparator.comparing(name -> name.substring(0, name.length() - FoundFiles.MAPPING_FILE.length())))
            .forEach(mapping -> served.put(mapping, new TreeSet<>()));
        TreeSet<String> none = new TreeSet<>();
        for (ReportFile file : files) {
            String folder = folderServing(file.name());
            String mapping = folder != null ? nameByFolder.get(folder) : requestedName == null ? null : requestedName.replace('\\', '/');
            (mapping == null ? none : served.get(mapping)).add(pseudonyms.file(file.name()));
        }
        packs.forEach(pack -> served.remove(pack.name() + "/" + FoundFiles.MAPPING_FILE, Set.of()));
        if (served.isEmpty()) {
            return List.of();
        }
        List<MappingUse> uses = new ArrayList<>();
        served.forEach((mapping, names) -> uses.add(use(pseudonyms.file(mapping), names)));
        if (!none.isEmpty()) {
            uses.add(use(null, none));
        }
        return uses;
    }

    private static MappingUse use(String mapping, TreeSet<String> names) {
        return new MappingUse(mapping, names.size(), names.isEmpty() ? null : names.first(), names.isEmpty() ? null : names.last());
    }
}
