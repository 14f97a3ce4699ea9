package org.wearledger.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.apache.commons.text.StringEscapeUtils;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.EnabledIfSystemProperty;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

/** How a browser shows the pages: {@code mvn -Pbrowser -Daxe=.../axe.min.js verify}. */
@EnabledIfSystemProperty(named = "chromium", matches = ".+")
class BrowserIT {
    private static final List<String> MACHINES = List.of("LT-004", "LT-005", "LT-008", "LT-019");
    private static final String DARK = "--blink-settings=preferredColorScheme=0";

    @TempDir
    static Path pages;
    @TempDir
    Path folder;

    @BeforeAll
    static void write() throws Exception {
        for (String machine : MACHINES) {
            assertThat(Runs.of("explain", "--machine", machine, "sample-reports", "--out", pages.resolve(machine + ".html")).exitCode()).isEqualTo(ExitCode.DONE);
        }
        Runs.of("sweep", "sample-reports", "--out", pages.resolve("office"));
        Runs.of("sweep", "sample-reports/_chain", "--ownership", "customers", "--out", pages.resolve("chain"));
    }

    static Stream<Arguments> shown() {
        return Stream.concat(MACHINES.stream().map(machine -> machine + ".html"), Stream.of("office/fleet.html", "chain/fleet.html"))
            .flatMap(page -> Stream.of(1280, 390).flatMap(width -> Stream.of("", DARK).map(look -> Arguments.of(page, width, look))));
    }

    /** As the accessibility audit sees it, and nothing wider than the screen. */
    @ParameterizedTest(name = "{0}, {1} px {2}")
    @MethodSource("shown")
    void everybodyCanReadIt(String page, int width, String look) throws Exception {
        String axe = Files.readString(Path.of(System.getProperty("axe"))).replace("</script", "<\\/script");
        // The audit's own script would be refused by the page's policy.
        String audited = Files.readString(pages.resolve(page)).replaceFirst("<meta http-equiv[^>]*>", "").replace("<details>", "<details open>").replace("</body>", "<script>" + axe + "</script><script>"
            + "axe.run().then(r => parent.document.title = 'violations=' + r.violations.map(v => v.id + ': ' + v.nodes.map(n => n.html).join(' ')).join('; ')"
            + " + ' passes=' + r.passes.length + ' width=' + document.documentElement.scrollWidth);</script></body>");
        Path frame = Files.writeString(folder.resolve("frame.html"), "<iframe width=" + width + " height=3000 style=border:0 srcdoc=\"" + audited.replace("&", "&amp;").replace("\"", "&quot;") + "\"></iframe>");
        // The frame's own title comes later, within its attribute.
        Matcher titles = Pattern.compile("(?s)<title>(.*?)</title>").matcher(chromium(look, "--dump-dom", "--virtual-time-budget=30000", frame.toUri().toString()));
        String title = titles.find() ? StringEscapeUtils.unescapeHtml4(titles.group(1)) : "";
        assertThat(title).matches("violations= passes=[1-9][0-9]+ width=\\d+");
        assertThat(Integer.parseInt(title.replaceAll(".*width=", ""))).isLessThanOrEqualTo(width);
    }

    /** Its script runs under its policy: the machines that need something are counted. */
    @Test
    void theFleetsPageCountsWhatItShows() throws Exception {
        assertThat(chromium("--dump-dom", pages.resolve("office/fleet.html").toUri().toString())).contains("14 of 60 machines shown", "<th scope=\"col\" role=\"columnheader\"><button type=\"button\">Machine</button>");
        assertThat(Files.readString(folder.resolve("chromium.log"))).doesNotContain("CONSOLE");
    }

    @ParameterizedTest(name = "{0}")
    @ValueSource(strings = {"LT-004", "LT-005", "LT-008", "LT-019"})
    void aMachinesPageIsPrintedOnTwoPages(String machine) throws Exception {
        Path pdf = folder.resolve("page.pdf");
        chromium("--print-to-pdf=" + pdf, "--no-pdf-header-footer", pages.resolve(machine + ".html").toUri().toString());
        long printed = Pattern.compile("/Type /Page\\b").matcher(new String(Files.readAllBytes(pdf), StandardCharsets.ISO_8859_1)).results().count();
        assertThat(printed).isBetween(1L, 2L);
        assertThat(Files.readString(folder.resolve("chromium.log"))).doesNotContain("CONSOLE");
    }

    private String chromium(String... arguments) throws Exception {
        List<String> command = new ArrayList<>(List.of(System.getProperty("chromium"), "--headless", "--no-sandbox", "--disable-gpu",
            "--disable-quic", "--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync",
            "--enable-logging=stderr", "--window-size=1300,3100", "--user-data-dir=" + folder.resolve("profile")));
        Stream.of(arguments).filter(argument -> !argument.isEmpty()).forEach(command::add);
        Path out = folder.resolve("chromium.out");
        Process process = new ProcessBuilder(command).redirectOutput(out.toFile()).redirectError(folder.resolve("chromium.log").toFile()).start();
        assertThat(process.waitFor(10, TimeUnit.MINUTES)).isTrue();
        return Files.readString(out);
    }
}
