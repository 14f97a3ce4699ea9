package org.wearledger.simulate;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.networknt.schema.Error;
import com.networknt.schema.Schema;
import com.networknt.schema.SchemaLocation;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Consumer;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import java.util.zip.GZIPInputStream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.wearledger.model.HealthField;
import org.wearledger.model.ProblemKind;

class SchemaTest {
    private static final ObjectMapper JSON = new ObjectMapper();
    private static final String BASE = "https://wearledger.example/schemas/";
    private static final Path SAMPLE = Path.of("sample-reports");
    private static final Path DOCUMENT = Path.of("notebooks-free-docs", "report-format.md");
    /** A page of zeros and a wrong ending are faults that a schema cannot see. */
    private static final Set<ProblemKind> VALID_ALL_THE_SAME =
        Set.of(ProblemKind.FORMAT_DIFFERS_FROM_ENDING, ProblemKind.LOG_PAGE_WITHOUT_DATA);
    private static SchemaRegistry registry;

    @BeforeAll
    static void loadSchemas() throws IOException {
        Map<String, String> schemas = Map.of(
            BASE + "report.schema.json", Files.readString(Path.of("schemas", "report.schema.json")),
            BASE + "reports.schema.json", Files.readString(Path.of("schemas", "reports.schema.json")));
        registry = SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12, builder -> builder.schemas(schemas));
    }

    private static List<Error> errors(String schemaName, JsonNode instance) {
        Schema schema = registry.getSchema(SchemaLocation.of(BASE + schemaName));
        return schema.validate(instance, context -> context.executionConfig(c -> c.formatAssertionsEnabled(true)));
    }

    private static String keywords(JsonNode report) {
        return errors("report.schema.json", report).stream().map(e -> e.getInstanceLocation() + " " + e.getKeyword())
            .collect(Collectors.joining("; "));
    }

    static List<Path> goodJsonFiles() throws IOException {
        Set<String> broken = OfficeSample.oddities(OfficeSample.DEFAULT_QUARTERS).stream()
            .filter(o -> !o.readingProblems().isEmpty()
                && !VALID_ALL_THE_SAME.contains(o.readingProblems().get(0)))
            .map(Oddity::file).collect(Collectors.toSet());
        try (Stream<Path> walk = Files.walk(SAMPLE)) {
            return walk.filter(Files::isRegularFile)
                .filter(p -> p.toString().matches(".*(json|jsonl|ndjson)(\\.gz)?|.*lt-025\\.csv"))
                .filter(p -> !broken.contains(SAMPLE.relativize(p).toString().replace('\\', '/'))).sorted().toList();
        }
    }

    private static String text(Path file) throws IOException {
        try (InputStream raw = Files.newInputStream(file);
             InputStream in = file.toString().endsWith(".gz") ? new GZIPInputStream(raw) : raw) {
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        }
    }

    @ParameterizedTest
    @MethodSource("goodJsonFiles")
    void everyGoodSampleFileIsValid(Path file) throws IOException {
        boolean onePerLine = file.toString().matches(".*(jsonl|ndjson)(\\.gz)?");
        List<String> texts = onePerLine ? text(file).lines().toList() : List.of(text(file));
        assertThat(texts).isNotEmpty();
        for (String text : texts) {
            assertThat(errors(onePerLine ? "report.schema.json" : "reports.schema.json", JSON.readTree(text))).isEmpty();
        }
    }

    @Test
    void ofTheLinesWithABadOneTheOthersAreValid() throws IOException {
        List<String> lines = text(SAMPLE.resolve("2024-q4/office.jsonl")).lines().toList();
        for (int i = 0; i < lines.size(); i++) {
            if (i != 1) {
                assertThat(keywords(JSON.readTree(lines.get(i)))).isEmpty();
            }
        }
    }

    private static ObjectNode documentedExample() throws IOException {
        String page = Files.readString(DOCUMENT);
        int start = page.indexOf("```json\n") + "```json\n".length();
        return (ObjectNode) JSON.readTree(page.substring(start, page.indexOf("```", start)));
    }

    @Test
    void theDocumentedExampleIsValid() throws IOException {
        assertThat(keywords(documentedExample())).isEmpty();
    }

    @Test
    void theSchemaAndTheColumnTableNameExactlyTheModelsHealthFields() throws IOException {
        Set<String> components = HealthField.ALL.stream().map(HealthField::ownName)
            .collect(Collectors.toCollection(TreeSet::new));
        JsonNode schema = JSON.readTree(Path.of("schemas", "report.schema.json").toFile());
        Set<String> named = new TreeSet<>();
        schema.at("/properties/health/properties").fieldNames().forEachRemaining(named::add);
        assertThat(named).isEqualTo(components);
        String columns = Files.readString(Path.of("schemas", "csv-columns.md"));
        assertThat(components).allMatch(name -> columns.contains("| `health." + name + "` |"));
    }

    private static String keywordsAfter(Consumer<ObjectNode> change) throws IOException {
        ObjectNode report = documentedExample();
        change.accept(report);
        return keywords(report);
    }

    @ParameterizedTest
    @ValueSource(strings = {"1.5", "-1", "\"1.58E+14\"", "\"309,667,839\"", "340282366920938463463374607431768211456", "null"})
    void aCounterThatIsNoExactWholeNumberIsInvalid(String counter) throws IOException {
        JsonNode value = JSON.readTree(counter);
        assertThat(keywordsAfter(r -> r.withObject("/health").set("dataUnitsWritten", value)))
            .contains("/health/dataUnitsWritten oneOf");
    }

    @ParameterizedTest
    @ValueSource(strings = {"0", "340282366920938463463374607431768211455", "\"340282366920938463463374607431768211455\""})
    void anExactCounterOfUpTo128BitsIsValid(String counter) throws IOException {
        JsonNode value = JSON.readTree(counter);
        assertThat(keywordsAfter(r -> r.withObject("/health").set("dataUnitsWritten", value))).isEmpty();
    }

    @Test
    void healthAndRawPageTogetherAreInvalid() throws IOException {
        assertThat(keywordsAfter(r -> r.put("healthLogPage", LogPage.base64(new byte[512])))).isEqualTo(" oneOf");
    }

    @Test
    void neitherHealthNorRawPageIsInvalid() throws IOException {
        assertThat(keywordsAfter(r -> r.remove("health"))).startsWith(" oneOf");
    }

    @Test
    void aPageOf511BytesIsInvalid() throws IOException {
        assertThat(keywordsAfter(r -> {
            r.remove("health");
            r.put("healthLogPage", LogPage.base64(new byte[511]));
        })).isEqualTo("/healthLogPage pattern");
    }

    @Test
    void aTimeWithoutOffsetIsInvalid() throws IOException {
        assertThat(keywordsAfter(r -> r.put("collectedAt", "2025-01-06T09:30:00"))).contains("/collectedAt");
    }

    @Test
    void anUnknownFieldIsInvalid() throws IOException {
        assertThat(keywordsAfter(r -> r.withObject("/health").put("bytesWritten", 5))).isEqualTo("/health additionalProperties");
    }
}
