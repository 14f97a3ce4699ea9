package org.wearledger.intake;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.MapperFeature;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.SerializationFeature;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.io.BufferedWriter;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.wearledger.model.Problem;

/**
 * A pack: readings normalised earlier, in {@value #READINGS}, and beside them what reading the reports told and the side tables of that
 * day, so that a sweep of the pack tells the same as one of the reports.
 *
 * @param folder where it lies, and its name to print
 * @param problems of the reports, those that refuse a record or a file among them
 * @param place what is to stand before the names of its reports, empty for nothing
 */
public record PackFolder(ReportFile folder, Contents contents, List<Problem> problems, String place) {
    /** Folder of the Parquet files. */
    public static final String READINGS = "readings";
    private static final String PROBLEMS = "problems.jsonl";
    /** 3: problems are kept as values, not as sentences. */
    private static final int VERSION = 3;
    private static final ObjectMapper JSON = JsonMapper.builder().enable(SerializationFeature.INDENT_OUTPUT)
        // An unordered map has another order in each run of Java.
        .enable(SerializationFeature.ORDER_MAP_ENTRIES_BY_KEYS)
        // A record's questions about itself are no components of it.
        .disable(MapperFeature.AUTO_DETECT_IS_GETTERS).build();

    /**
     * What {@value FoundFiles#PACK_FILE} says.
     *
     * @param packVersion of this form
     * @param writtenBy version of the program
     * @param readings that the Parquet files hold
     * @param passedOver files that were no reports, by name
     * @param sha256 of each file, by name; under {@value FoundFiles#PACK_FILE} that of its own content without that line
     */
    public record Contents(int packVersion, String writtenBy, long filesFound, long filesRead, long records, long readings, List<String> passedOver,
                           Map<String, String> sha256) {
        /** In today's form; its sums are worked out when it is written. */
        public static Contents of(String writtenBy, long filesFound, long filesRead, long records, long readings, List<String> passedOver) {
            return new Contents(VERSION, writtenBy, filesFound, filesRead, records, readings, passedOver, Map.of());
        }

        private Contents with(Map<String, String> sums) {
            return new Contents(packVersion, writtenBy, filesFound, filesRead, records, readings, passedOver, sums);
        }

        /** These sums of its files, and its own. */
        private Contents summed(Map<String, String> ofFiles) throws IOException {
            Map<String, String> sums = new TreeMap<>(ofFiles);
            sums.put(FoundFiles.PACK_FILE, with(ofFiles).ownSum());
            return with(sums);
        }

        private String ownSum() throws IOException {
            Map<String, String> ofOthers = new TreeMap<>(sha256);
            ofOthers.remove(FoundFiles.PACK_FILE);
            return PackSums.of(JSON.writer().without(SerializationFeature.INDENT_OUTPUT).writeValueAsBytes(with(ofOthers)));
        }
    }

    /** The pack as one of several, whose reports may be called alike: its own name is put before theirs. */
    public PackFolder amongOthers() {
        String before = folder.name() + "/";
        return new PackFolder(folder, contents, problems.stream().map(p -> p.at(p.source().within(before), p.subject())).toList(), before);
    }

    /** Writes all but the readings and the side tables, which lie there already: their sums are taken. */
    public static void write(Path folder, Contents contents, List<Problem> problems) throws IOException {
        try (BufferedWriter out = Files.newBufferedWriter(folder.resolve(PROBLEMS))) {
            for (Problem problem : problems.stream().sorted().toList()) {
                out.write(JSON.writer().without(SerializationFeature.INDENT_OUTPUT).writeValueAsString(problem));
                out.write('\n');
            }
        }
        Files.writeString(folder.resolve(FoundFiles.PACK_FILE), JSON.writeValueAsString(contents.summed(PackSums.of(folder))) + "\n");
    }

    /** @throws InputMissingException when the folder is no pack of a form known here, or is damaged */
    public static PackFolder read(ReportFile folder) throws IOException {
        Path path = Path.of(folder.path());
        try {
            JsonNode json = JSON.readTree(Files.readString(path.resolve(FoundFiles.PACK_FILE)));
            // First, since another version may have other fields.
            if (!json.path("packVersion").isInt()) {
                throw damaged(folder, FoundFiles.PACK_FILE + " names no version");
            }
            int version = json.path("packVersion").asInt();
            if (version != VERSION) {
                throw new InputMissingException(folder.name() + " is a pack of version " + version + "; this program reads version "
                    + VERSION + ": pack the reports again");
            }
            if (!Files.isDirectory(path.resolve(READINGS))) {
                throw damaged(folder, "it has no folder " + READINGS);
            }
            Contents contents = JSON.treeToValue(json, Contents.class);
            if (contents.sha256() == null || contents.passedOver() == null) {
                throw damaged(folder, FoundFiles.PACK_FILE + " lacks its sums or names");
            }
            if (contents.filesRead() < 0 || contents.filesRead() > contents.filesFound() || contents.readings() < 0 || contents.readings() > contents.records()) {
                throw damaged(folder, "the counts in " + FoundFiles.PACK_FILE + " contradict each other");
            }
            requireAsWritten(folder, contents);
            List<Problem> problems = new ArrayList<>();
            try (Stream<String> lines = Files.lines(path.resolve(PROBLEMS))) {
                for (String line : (Iterable<String>) lines::iterator) {
                    problems.add(JSON.readValue(line, Problem.class));
                }
            }
            return new PackFolder(folder, contents, problems, "");
        } catch (InputMissingException e) {
            throw e;
        } catch (JsonProcessingException e) {
            // What the library says names classes.
            throw damaged(folder, "its JSON cannot be read");
        } catch (IOException | UncheckedIOException e) {
            throw damaged(folder, e.getMessage());
        }
    }

    /** A changed byte would change figures and be seen nowhere else: Spark's own sums lie in hidden files that a copy may lose. */
    private static void requireAsWritten(ReportFile folder, Contents contents) throws IOException {
        Map<String, String> found = PackSums.of(Path.of(folder.path()));
        found.put(FoundFiles.PACK_FILE, contents.ownSum());
        // A file that was laid beside them does no harm, unless it would be read as readings.
        Set<String> names = new TreeSet<>(contents.sha256().keySet());
        found.keySet().stream().filter(name -> name.startsWith(READINGS + "/")).forEach(names::add);
        for (String name : names) {
            if (!Objects.equals(found.get(name), contents.sha256().get(name))) {
                throw damaged(folder, name + (found.containsKey(name) ? " is not as it was written" : " is missing"));
            }
        }
    }

    /** Those of the packs that hold the side table, as they lie in them. */
    public static List<ReportFile> tables(List<ReportFile> packs, String table) {
        return packs.stream().filter(pack -> Files.isRegularFile(Path.of(pack.path()).resolve(table)))
            .map(pack -> new ReportFile(Path.of(pack.path()).resolve(table).toString(), pack.name() + "/" + table)).toList();
    }

    /** To be thrown when the pack turns out not to be whole. */
    public static InputMissingException damaged(ReportFile folder, String found) {
        return new InputMissingException(folder.name() + " is a damaged pack (" + found + "): pack its reports again");
    }
}
