package org.wearledger.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.apache.commons.text.StringTokenizer;
import org.apache.commons.text.matcher.StringMatcherFactory;

/** The pages of the project, and what they name. */
final class Docs {
    private static final Pattern BLOCK = Pattern.compile("^```(\\w+)\\n(.*?)^```$", Pattern.MULTILINE | Pattern.DOTALL);
    private static final Pattern HERE_DOCUMENT = Pattern.compile("<<'END'\\n.*?^END$", Pattern.MULTILINE | Pattern.DOTALL);

    private Docs() {
    }

    static List<Path> pages() throws IOException {
        List<Path> pages = new ArrayList<>(List.of(Path.of("README.md"), Path.of("DEVELOPERS.md"), Path.of("sample-reports/README.md"), Path.of("sample-reports/_chain/README.md")));
        for (String folder : List.of("notebooks-free-docs", "schemas")) {
            try (Stream<Path> entries = Files.list(Path.of(folder))) {
                entries.filter(path -> path.toString().endsWith(".md")).sorted().forEach(pages::add);
            }
        }
        return pages;
    }

    /** The contents of the blocks fenced as {@code language}. */
    static List<String> blocks(Path page, String language) throws IOException {
        return BLOCK.matcher(Files.readString(page)).results().filter(block -> block.group(1).equals(language)).map(block -> block.group(2)).toList();
    }

    /** The text between the blocks. */
    static String prose(Path page) throws IOException {
        return BLOCK.matcher(Files.readString(page)).replaceAll("");
    }

    static List<String> found(String pattern, String text) {
        return Pattern.compile(pattern).matcher(text).results().map((MatchResult match) -> match.group(1)).toList();
    }

    /** Of a shell script the arguments of each call of {@code wearledger}, without redirections and what follows; today is some day. */
    static List<List<String>> calls(String script) {
        List<List<String>> calls = new ArrayList<>();
        for (String line : HERE_DOCUMENT.matcher(script).replaceAll("").replace("\\\n", " ").replace("$(date -u +%F)", "2025-01-06").split("\n")) {
            List<String> words = new StringTokenizer(line, StringMatcherFactory.INSTANCE.splitMatcher(), StringMatcherFactory.INSTANCE.quoteMatcher())
                .getTokenList();
            if (!words.isEmpty() && words.get(0).matches("(.*/)?wearledger")) {
                calls.add(words.stream().skip(1).takeWhile(word -> !word.matches("&&|\\|\\|?|\\d?>.*")).toList());
            }
        }
        return calls;
    }
}
