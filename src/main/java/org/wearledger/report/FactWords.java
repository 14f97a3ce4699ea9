package org.wearledger.report;

import com.fasterxml.jackson.databind.node.TextNode;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.Reader;
import java.io.UncheckedIOException;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.nio.charset.StandardCharsets;
import java.util.Collection;
import java.util.List;
import java.util.Locale;
import java.util.Properties;
import java.util.function.Function;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.wearledger.model.Fact;
import org.wearledger.model.MappedField;
import org.wearledger.model.Problem;
import org.wearledger.model.ProblemKind;

/**
 * The words of {@value #FILE}, in which the facts of a problem stand. Its head says how they are written. Facts of packs come from
 * outside: what should be a number and is none stays as it is.
 */
record FactWords(Problem problem) {
    static final String FILE = "problems.properties";
    static final Properties WORDS = words();
    static final Pattern NAMED = Pattern.compile("\\{([A-Za-z][^{}\"]*)\\}");
    private static final String WITHHELD = "(withheld)";
    private static final int MOST_QUOTED = 5;
    private static final BigDecimal GIBIBYTE = BigDecimal.valueOf(1L << 30);
    private static final BigDecimal MEBIBYTE = BigDecimal.valueOf(1L << 20);

    private static Properties words() {
        Properties words = new Properties();
        try (Reader in = new InputStreamReader(FactWords.class.getResourceAsStream(FILE), StandardCharsets.UTF_8)) {
            words.load(in);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return words;
    }

    /** A rule in one line. */
    static String meaning(ProblemKind rule) {
        return WORDS.getProperty("rule." + rule.id());
    }

    /** The words of this key; empty for an unknown one, which only a damaged pack can ask for. */
    String of(String key) {
        return NAMED.matcher(WORDS.getProperty(key, "")).replaceAll(name -> Matcher.quoteReplacement(value(name.group(1)))).replace("\"" + WITHHELD + "\"", WITHHELD);
    }

    private String value(String name) {
        int question = name.indexOf('?');
        if (question > 0) {
            String[] phrases = name.substring(question + 1).split(":");
            if (has(Fact.valueOf(name.substring(0, question)))) {
                return of(phrases[0]);
            }
            return phrases.length > 1 ? of(phrases[1]) : "";
        }
        if (Character.isUpperCase(name.charAt(0))) {
            int blank = name.indexOf(' ');
            Fact fact = Fact.valueOf(blank < 0 ? name : name.substring(0, blank));
            return blank < 0 || !has(fact) ? text(fact) : inForm(fact, name.substring(blank + 1));
        }
        List<MappedField> fields = problem.fields();
        return switch (name) {
            case "subject" -> problem.subject();
            case "not-reported" -> problem.kind() == ProblemKind.OPTIONAL_FIELD_INVALID ? of("taken-as-not-reported") : "";
            case "json-heading" -> fields.isEmpty() || !fields.get(0).isMapped() || fields.get(0).heading().isEmpty() ? WITHHELD : TextNode.valueOf(fields.get(0).heading()).toString();
            case "field" -> joined(fields, FactWords::named);
            case "from-heading" -> fields.isEmpty() || !fields.get(0).isMapped() ? "" : " (from " + headingAndUnit(fields.get(0)) + ")";
            case "by-life" -> UnitByLife.of(problem).map(unit -> unit.words()).orElseGet(() -> of("check-unit"));
            case "is-it-remaining" -> of(fields.stream().anyMatch(field -> field.unit() != null && field.unit().endsWith("Remaining")) ? "is-it-used" : "is-it-what-remains");
            case "mapped" -> fields.isEmpty() ? "" : "; the mapping reads " + joined(fields, FactWords::withUnit);
            default -> ofKey(name);
        };
    }

    /** A phrase of its own for some fields. */
    private String ofKey(String key) {
        if (!key.startsWith("field.")) {
            return of(key);
        }
        return problem.fields().isEmpty() ? "" : of(key + "." + problem.fields().get(0).name());
    }

    private String inForm(Fact fact, String form) {
        try {
            BigDecimal number = form.startsWith("GB") || List.of("TB", "memory", "hundredths", "tenths", "unread").contains(form) ? new BigDecimal(problem.fact(fact)) : null;
            return switch (form) {
                case "TB" -> number.movePointLeft(12).setScale(3, RoundingMode.HALF_UP).toPlainString() + " TB";
                case "GB" -> gigabytes(number, 9);
                case "GB1" -> gigabytes(number, 1);
                case "GB0" -> gigabytes(number, 0);
                case "memory" -> memory(number);
                case "hundredths" -> String.format(Locale.ROOT, "%.2f", number);
                case "tenths" -> String.format(Locale.ROOT, "%,.1f", number);
                case "unread" -> of(number.signum() < 0 ? "unread-unknown" : "unread");
                case "counter" -> text(fact).replaceAll("(?=[A-Z])", " ").toLowerCase(Locale.ROOT).replace("power on", "power-on");
                case "quoted" -> problem.facts().get(fact).stream().limit(MOST_QUOTED).map(name -> "\"" + name + "\"").collect(Collectors.joining(", "))
                    + (problem.facts().get(fact).size() > MOST_QUOTED ? " and others" : "");
                case "rows" -> nearRows();
                case "without-dot" -> text(fact).replace(".", "");
                default -> WORDS.containsKey(form + "." + problem.fact(fact)) ? problem.facts().get(fact).stream().map(name -> of(form + "." + name)).collect(Collectors.joining(", "))
                    : Wording.count(Long.parseLong(problem.fact(fact)), form);
            };
        } catch (NumberFormatException e) {
            return text(fact);
        }
    }

    private boolean has(Fact fact) {
        return problem.facts().containsKey(fact);
    }

    /** Its value, or several with a comma between. */
    private String text(Fact fact) {
        return has(fact) ? String.join(", ", problem.facts().get(fact)) : WITHHELD;
    }

    private static String gigabytes(BigDecimal bytes, int places) {
        return bytes.movePointLeft(9).setScale(places, RoundingMode.HALF_UP).stripTrailingZeros().toPlainString() + " GB";
    }

    /** A size in a wrong unit is small, and still to be read. */
    private static String memory(BigDecimal bytes) {
        BigDecimal unit = bytes.compareTo(GIBIBYTE) >= 0 ? GIBIBYTE : bytes.compareTo(MEBIBYTE) >= 0 ? MEBIBYTE : BigDecimal.ONE;
        return bytes.divide(unit, 2, RoundingMode.HALF_UP).stripTrailingZeros().toPlainString() + (unit == GIBIBYTE ? " GiB" : unit == MEBIBYTE ? " MiB" : " bytes");
    }

    /** Of rows of the ratings table; places, models and capacities lie side by side. */
    String nearRows() {
        List<String> places = problem.facts().getOrDefault(Fact.PLACE, List.of());
        List<String> models = problem.facts().getOrDefault(Fact.NEAR, List.of());
        List<String> gigabytes = problem.facts().getOrDefault(Fact.GIGABYTES, List.of());
        return IntStream.range(0, Math.min(places.size(), Math.min(models.size(), gigabytes.size())))
            .mapToObj(i -> places.get(i) + " has " + models.get(i) + ", " + gigabytes.get(i) + " GB").collect(Collectors.joining(", "));
    }

    private static String named(MappedField field) {
        return field.isMapped() ? field.name() + " (from " + heading(field) + ")" : field.name();
    }

    /** Example: {@code health.dataUnitsWritten from "Host writes" in TB}. */
    static String withUnit(MappedField field) {
        return field.isMapped() ? field.name() + " from " + headingAndUnit(field) : field.name();
    }

    private static String headingAndUnit(MappedField field) {
        return heading(field) + (field.unit() == null ? "" : " in " + field.unit());
    }

    private static String heading(MappedField field) {
        return field.heading().isEmpty() ? "a withheld heading" : "\"" + field.heading() + "\"";
    }

    static String joined(Collection<MappedField> fields, Function<MappedField, String> words) {
        return fields.stream().map(words).collect(Collectors.joining(", "));
    }
}
