package org.wearledger.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVRecord;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Names that hide, steer, compute, load or mark up, in every place where input may hold one; and every output of every command. */
class SafeOutputsIT {
    /** From sheet to sheet: nothing of the input stands in it. */
    private static final Pattern OWN_LINK = Pattern.compile("<f>HYPERLINK\\(&quot;#'(Machines|To do)'!A(1&quot;,&quot;and \\d+ more on the sheet To do&quot;|&quot;&amp;MATCH\\(A\\d+,'\\1'!A:A,0\\),&quot;\\1&quot;)\\)</f>");
    /** A turn of the writing direction, a zero-width blank, a terminal's escape, a line separator and a line end. */
    private static final String HIDDEN = "\u202e\u200b\u001b31m\u2028\r\u0085\u2066";
    private static final String MARKUP = "</title></text><script src=//x.example></script><img src=http://x.example/a.png>&#x202e;_x202E_";
    private static final String FORMULA = "=HYPERLINK(\"http://x.example\",\"a\")";
    private static final String NASTY = FORMULA + HIDDEN + MARKUP;
    private static final Pattern HIDDEN_CHARACTER = Pattern.compile("[\\p{Cc}\\p{Cf}\\p{Zl}\\p{Zp}&&[^\\n]]");

    private static final Pattern BY_NUMBER = Pattern.compile("(?<!_x005F)_x(?!005F)[0-9A-Fa-f]{4}_|&#(x20[0-9a-f]{2}|8[0-9]{3});");

    @TempDir
    private static Path folder;
    private static final Map<String, String> OUTPUTS = new LinkedHashMap<>();

    @BeforeAll
    static void runEveryCommand() throws IOException {
        Path reports = Files.createDirectory(folder.resolve("reports"));
        StringBuilder lines = new StringBuilder();
        for (int quarter = 1; quarter <= 4; quarter++) {
            lines.append(report("2024-" + (3 * quarter - 2 < 10 ? "0" : "") + (3 * quarter - 2) + "-06T08:00:00Z", NASTY, 100_000_000L * quarter));
            lines.append(report("2024-" + (3 * quarter - 2 < 10 ? "0" : "") + (3 * quarter - 2) + "-06T08:00:00Z", "+LT-2", 90_000_000L * quarter));
        }
        Files.writeString(reports.resolve("a\u202e" + "\u001b]0;x\u0007.jsonl"), lines + "{\"x\": \u202e\u200b}\n{\"" + json(NASTY) + "\": 1}\n");
        Files.writeString(reports.resolve("<img src=x>.json"), HIDDEN + MARKUP);
        Files.writeString(reports.resolve("passed\u202e.txt"), "x");
        Files.writeString(reports.resolve("inventory.csv"), "machineId,site,costCentre,inServiceOn\n" + cell(NASTY) + "," + cell(NASTY) + "," + cell("@" + NASTY)
            + ",2023-01-06\n" + cell("-LT-9" + NASTY) + "," + cell("\t=1+1") + "," + cell("\r=1+1") + "," + cell(NASTY) + "\n");
        Files.writeString(reports.resolve("prices.csv"), "item,currency,unitPrice,priceDate,supplier\ndrive 512 GB,EUR,90,2024-12-01," + cell(NASTY) + "\n"
            + cell(NASTY) + ",EUR,90,2024-12-01,\n");
        Files.writeString(reports.resolve("ratings.csv"), "driveModel,nominalCapacityGigabytes,ratedTerabytesWritten,source\n" + cell(NASTY) + ",512,150,"
            + cell(NASTY) + "\n");
        keep("sweep", Runs.of("sweep", reports, "--out", folder.resolve("sweep")));
        keep("backtest", Runs.of("backtest", reports, "--out", folder.resolve("backtest")));
        keep("check", Runs.of("check", reports));
        keep("check as JSON", Runs.of("check", reports, "--format", "json"));
        keep("explain", Runs.of("explain", reports, "--machine", "+LT-2", "--out", folder.resolve("page.html")));
        keep("wrong usage", Runs.of("explain", reports, "--machine", NASTY.replace("\u202e", "x\u202e"), "--out", folder.resolve("none.html")));
        keep("wrong option", Runs.of("sweep", reports, "--as-of", NASTY, "--out", folder.resolve("none")));
        keep("no input", Runs.of("sweep", folder + "/none" + HIDDEN + "*", "--out", folder.resolve("none")));
        for (String place : List.of("sweep", "backtest", "page.html")) {
            OUTPUTS.putAll(OutputTexts.below(folder.resolve(place)));
        }
    }

    private static void keep(String command, Runs run) {
        assertThat(run.err()).as(command).doesNotContain("\tat ");
        OUTPUTS.put(command + ", standard output", run.out());
        OUTPUTS.put(command + ", standard error", run.err());
    }

    private static String json(String text) {
        StringBuilder escaped = new StringBuilder();
        text.chars().forEach(c -> escaped.append(c < ' ' || c == '"' || c == '\\' ? String.format("\\u%04x", c) : Character.toString(c)));
        return escaped.toString();
    }

    private static String cell(String text) {
        return '"' + text.replace("\"", "\"\"") + '"';
    }

    private static String report(String at, String name, long dataUnits) {
        String n = json(name);
        return ("{'schemaVersion':'1.0','collectedAt':'" + at + "','machine':{'id':'" + n + "','assetTag':'" + n + "','site':'" + n + "','costCentre':'" + n
            + "','model':'" + n + "','memoryBytes':8589934592,'inServiceOn':'" + n + "'},'drive':{'serial':'" + n + "','model':'" + n + "','firmware':'" + n
            + "','capacityBytes':512110190592,'attachment':'" + n + "'},'health':{'criticalWarning':0,'availableSparePercent':100,'percentageUsed':20,"
            + "'dataUnitsWritten':" + dataUnits + ",'powerOnHours':2000,'compositeTemperatureKelvin':'" + n + "'}}\n").replace('\'', '"');
    }

    @Test
    void nothingHides() {
        assertThat(OUTPUTS).hasSizeGreaterThan(35);
        List<String> hiding = new ArrayList<>();
        OUTPUTS.forEach((where, text) -> {
            // Parts of a workbook that are no text, and the line ends of XML.
            Matcher hidden = HIDDEN_CHARACTER.matcher(where.endsWith(".png") ? "" : where.contains("!") ? text.replace("\r\n", "\n") : text);
            if (hidden.find()) {
                hiding.add(String.format("U+%04X in %s: %s", (int) hidden.group().charAt(0), where,
                    text.substring(Math.max(0, hidden.start() - 60), Math.min(text.length(), hidden.start() + 20))));
            }
            // How a workbook writes what XML cannot hold, and how markup writes what it can.
            if (where.contains("!") && BY_NUMBER.matcher(text.replaceAll("(?s)<!\\[CDATA\\[.*?]]>", "")).find()) {
                hiding.add("written by number in " + where);
            }
        });
        assertThat(hiding).isEmpty();
        assertThat(OUTPUTS.get("check, standard output")).contains("\\u202E", "\\u001B");
        assertThat(OUTPUTS.get("check as JSON, standard output")).contains("a\\u202E\\u001B]0;x\\u0007.jsonl");
    }

    @Test
    void nothingComputes() throws IOException {
        int texts = 0;
        for (Map.Entry<String, String> output : OUTPUTS.entrySet()) {
            if (output.getKey().endsWith(".csv")) {
                try (var parser = CSVFormat.RFC4180.parse(new java.io.StringReader(output.getValue()))) {
                    for (CSVRecord row : parser) {
                        for (String cell : row) {
                            assertThat(cell.matches("-?\\d+(\\.\\d+)?(E-?\\d+)?") ? "" : cell).as(output.getKey()).doesNotMatch("(?s)[=+\\-@\\t\\r].*");
                            texts += cell.startsWith("'=HYPERLINK") ? 1 : 0;
                        }
                    }
                }
            } else if (output.getKey().contains("!xl/worksheets/")) {
                String others = OWN_LINK.matcher(output.getValue()).replaceAll("");
                Matcher formula = Pattern.compile("<f[ >].*?</f>").matcher(others);
                while (formula.find()) {
                    assertThat(formula.group()).as(output.getKey()).doesNotContain("HYPERLINK", "x.example");
                }
                texts += others.contains("HYPERLINK") ? 1 : 0;
            }
        }
        assertThat(texts).as("cells that would compute").isGreaterThan(20);
    }

    @Test
    void nothingLoadsAndNothingIsMarkup() {
        String page = OUTPUTS.get(folder.resolve("page.html").toString());
        assertThat(page).contains("LT-2").doesNotContainIgnoringCase("<script").doesNotContain("<img");
        assertThat(page.replaceAll("xmlns(:\\w+)?=\"http://www\\.w3\\.org/[^\"]*\"", "")).doesNotContainPattern("(?i)<[^>]*\\b(src|href|xlink:href|action|srcset)\\s*=")
            .doesNotContainPattern("(?i)<!ENTITY|<!DOCTYPE svg|url\\((?!#)|@import|<[^>]*http(?!-equiv)");
        String fleet = OUTPUTS.get(folder.resolve("sweep/fleet.html").toString());
        assertThat(fleet.split("(?i)<script", -1)).as("the page's own script alone").hasSize(2);
        assertThat(fleet).contains("LT-2", "&lt;img").doesNotContain("<img").doesNotContainPattern("href=\"(?!#)");
        // What stands in quotes is a value.
        assertThat(fleet.replaceAll("(?s)<script>.*?</script>", "").replaceAll("=\"[^\"]*\"", "=\"\"")).doesNotContainPattern("(?i)<[^>]*\\b(src|action|srcset|on\\w+)\\s*=");
        OUTPUTS.forEach((where, text) -> {
            if (where.contains("!")) {
                assertThat(text).as(where).doesNotContain("TargetMode=\"External\"");
                assertThat(where).doesNotContain("externalLink", "vbaProject", "connections.xml");
            } else if (where.endsWith(".md")) {
                assertThat(text).as(where).doesNotContainPattern("(?<!\\\\)(\\\\\\\\)*<(script|img|/)").doesNotContainPattern("(?<!\\\\)(\\\\\\\\)*&#x");
            }
        });
    }
}
