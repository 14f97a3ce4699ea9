package org.wearledger.cli;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;
import java.util.zip.ZipEntry;
import java.util.zip.ZipFile;

/** What a run wrote, to be searched. */
final class OutputTexts {
    private OutputTexts() {
    }

    /** The text of every file below a place, by its name; of a workbook that of each part, as {@code sweep.xlsx!xl/workbook.xml}. */
    static Map<String, String> below(Path place) throws IOException {
        Map<String, String> texts = new TreeMap<>();
        try (Stream<Path> files = Files.walk(place)) {
            for (Path file : files.filter(Files::isRegularFile).toList()) {
                if (!file.toString().endsWith(".xlsx")) {
                    texts.put(file.toString(), text(Files.readAllBytes(file)));
                    continue;
                }
                try (ZipFile zip = new ZipFile(file.toFile())) {
                    for (ZipEntry entry : (Iterable<ZipEntry>) zip.stream().map(ZipEntry.class::cast)::iterator) {
                        texts.put(file + "!" + entry.getName(), text(zip.getInputStream(entry).readAllBytes()));
                    }
                }
            }
        }
        return texts;
    }

    private static String text(byte[] bytes) {
        return new String(bytes, StandardCharsets.UTF_8);
    }
}
