package org.wearledger.intake;

/** The form of a report file's text, told by its beginning; the ending only settles whether JSON is one object a line. */
enum ReportFormat {
    EMPTY,
    JSON_LINES,
    /** One object, an array of objects, or objects one after another. */
    JSON_SEQUENCE,
    /** Or any other text: its header tells. */
    CSV;

    static ReportFormat of(ReportFile file, String head) {
        String start = head.stripLeading();
        if (start.isEmpty()) {
            return EMPTY;
        }
        boolean lines = file.hasEnding(".jsonl") || file.hasEnding(".ndjson");
        boolean json = start.charAt(0) == '{' || start.charAt(0) == '['
            || lines && start.lines().anyMatch(line -> line.stripLeading().startsWith("{"));
        if (!json) {
            return CSV;
        }
        String firstLine = start.lines().findFirst().orElse("").strip();
        boolean onePerLine = start.charAt(0) != '[' && firstLine.length() > 1 && (lines || JsonRecords.isOneObject(firstLine));
        return onePerLine ? JSON_LINES : JSON_SEQUENCE;
    }
}
