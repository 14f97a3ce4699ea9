package org.wearledger.intake;

import com.fasterxml.jackson.core.JsonProcessingException;
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
    private static final int VERSION = 1;
    private static final ObjectMapper JSON = JsonMapper.builder().enable(SerializationFeature.INDENT_OUTPUT).build();

    /**
     * What {@value FoundFiles#PACK_FILE} says.
     *
     * @param packVersion of this form
     * @param writtenBy version of the program
     * @param readings that the Parquet files hold
     * @param passedOver files that were no reports, by name
     */
    public record Contents(int packVersion, String writtenBy, long filesFound, long filesRead, long records, long readings, List<String> passedOver) {
        /** In today's form. */
        public static Contents of(String writtenBy, long filesFound, long filesRead, long records, long readings, List<String> passedOver) {
            return new Contents(VERSION, writtenBy, filesFound, filesRead, records, readings, passedOver);
        }
    }

    /** The pack as one of several, whose reports may be called alike: its own name is put before theirs. */
    public PackFolder amongOthers() {
        String before = folder.name() + "/";
        return new PackFolder(folder, contents, problems.stream().map(p -> new Problem(p.kind(), p.source().within(before), p.subject(), p.found(),
            p.expected(), p.remedy(), p.count())).toList(), before);
    }

    /** Writes all but the readings. */
    public static void write(Path folder, Contents contents, List<Problem> problems) throws IOException {
        try (BufferedWriter out = Files.newBufferedWriter(folder.resolve(PROBLEMS))) {
            for (Problem problem : problems.stream().sorted().toList()) {
                out.write(JSON.writer().without(SerializationFeature.INDENT_OUTPUT).writeValueAsString(problem));
                out.write('\n');
            }
        }
        Files.writeString(folder.resolve(FoundFiles.PACK_FILE), JSON.writeValueAsString(contents) + "\n");
    }

    /** @throws InputMissingException when the folder is no pack of a form known here, or is damaged */
    public static PackFolder read(ReportFile folder) throws IOException {
        Path path = Path.of(folder.path());
        try {
            Contents contents = JSON.readValue(Files.readString(path.resolve(FoundFiles.PACK_FILE)), Contents.class);
            if (contents.packVersion() != VERSION) {
                throw new InputMissingException(folder.name() + " is a pack of version " + contents.packVersion() + "; this program reads version "
                    + VERSION + ": pack the reports again");
            }
            if (!Files.isDirectory(path.resolve(READINGS))) {
                throw damaged(folder, "it has no folder " + READINGS);
            }
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
            throw damaged(folder, e.getOriginalMessage().lines().findFirst().orElse(""));
        } catch (IOException | UncheckedIOException e) {
            throw damaged(folder, e.getMessage());
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
