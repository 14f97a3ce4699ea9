package org.wearledger.intake;

import java.io.Serializable;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;

/**
 * How a mapped export is written, apart from what it calls its fields.
 *
 * @param encoding by its name in the Java runtime; {@code null} for UTF-8
 * @param records names that lead from the outermost object to the records; empty where each such object is one
 * @param froms what fields are read from, by dotted names
 */
record ExportForm(String encoding, List<String> records, HashSet<String> froms) implements Serializable {
    static final ExportForm NONE = new ExportForm(null, List.of(), new HashSet<>());
    /** Leads from a record to the object around it, in a pointer {@code /../name}. */
    static final String UP = "...";

    /** The names that a pointer leads by. */
    static List<String> names(String pointer) {
        return Arrays.stream(pointer.substring(1).split("/", -1)).map(name -> name.replace("~1", "/").replace("~0", "~")).toList();
    }

    /** The pointer that leads by these names. */
    static String pointer(List<String> names) {
        return names.stream().map(name -> "/" + name.replace("~", "~0").replace("/", "~1")).collect(Collectors.joining());
    }

    Charset charset() {
        return encoding == null ? StandardCharsets.UTF_8 : Charset.forName(encoding);
    }

    /** Whether each outermost object is a record, in UTF-8. */
    boolean isPlain() {
        return encoding == null && records.isEmpty();
    }

    boolean hasRecordsInside() {
        return !records.isEmpty();
    }

    /** Whether line ends and quotation marks are the bytes that they are in ASCII, and no part of another character. */
    boolean keepsAsciiBytes() {
        Charset charset = charset();
        return charset.equals(StandardCharsets.UTF_8) || charset.canEncode() && charset.newEncoder().maxBytesPerChar() <= 1
            && new String(new byte[] {'\n', '"', 'a'}, charset).equals("\n\"a");
    }

    /** Elements of arrays that a field is read from: {@code disks.0} of {@code /disks/0/serial}. */
    Set<String> elements() {
        Set<String> elements = new HashSet<>();
        for (String from : froms) {
            for (int dot = from.indexOf('.'); dot >= 0; dot = from.indexOf('.', dot + 1)) {
                addElement(from.substring(0, dot), elements);
            }
            addElement(from, elements);
        }
        return elements;
    }

    private static void addElement(String name, Set<String> elements) {
        int dot = name.lastIndexOf('.');
        if (dot > 0 && name.substring(dot + 1).matches("\\d{1,4}")) {
            elements.add(name);
        }
    }
}
