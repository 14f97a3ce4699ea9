package org.wearledger.badinput;

import java.util.List;
import org.wearledger.model.Accounting;
import org.wearledger.model.Problem;
import org.wearledger.report.FileSum;
import org.wearledger.report.ProblemWords;

/** What is expected of a case, as one text: a line for each problem, then the sums. */
final class BadInputSentences {
    private BadInputSentences() {
    }

    static String of(List<Problem> problems, Accounting sums) {
        StringBuilder text = new StringBuilder();
        ProblemWords.sorted(problems).forEach(words -> text.append(words.problem().kind().id()).append(" (").append(words.problem().kind().effect().label()).append("): ")
            .append(printable(words.sentence())).append('\n'));
        return text.append(FileSum.of(sums.filesFound(), sums.filesReadInPart(), sums.filesRefused()))
            .append("\nrecords: ").append(sums.recordsFound()).append(" found = ").append(sums.readingsIn()).append(" readings + ")
            .append(sums.recordsRefused()).append(" refused\nreadings: ").append(sums.readingsIn()).append(" in = ").append(sums.readingsKept())
            .append(" kept + ").append(sums.readingsSetAside()).append(" set aside")
            .append(sums.rowsFound() == 0 ? "" : "\nside table rows: " + sums.rowsFound() + " found = " + sums.rowsRead() + " read + " + sums.rowsRefused()
                + " refused").toString();
    }

    /** What cannot be seen, and what would break the line, by its code point. */
    private static String printable(String text) {
        StringBuilder printable = new StringBuilder();
        text.codePoints().forEach(c -> {
            int type = Character.getType(c);
            boolean visible = type != Character.CONTROL && type != Character.FORMAT && (type != Character.SPACE_SEPARATOR || c == ' ');
            printable.append(visible ? Character.toString(c) : String.format("<U+%04X>", c));
        });
        return printable.toString();
    }
}
