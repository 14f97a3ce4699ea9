package org.wearledger.intake;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.time.format.DateTimeParseException;
import java.util.List;
import java.util.Map;
import org.wearledger.model.Fact;
import org.wearledger.model.Finding;
import org.wearledger.model.Problem;
import org.wearledger.model.SourcePlace;

/** A row's cells; a fault in an optional date is noted and the date taken as unknown. */
record SideTableRow(SourcePlace source, Map<String, String> cells, List<Problem> problems, boolean commasPartCells, TableMapping mapping) {
    /** More is a slip of the keyboard, for amounts, gigabytes and terabytes alike. */
    static final BigDecimal MOST = BigDecimal.valueOf(1_000_000_000);

    /** The row cannot be used. */
    static final class Fault extends Exception {
        private static final long serialVersionUID = 1;
        private final transient Problem problem;

        Fault(Problem problem) {
            super(problem.finding().name());
            this.problem = problem;
        }

        Problem problem() {
            return problem;
        }
    }

    String text(String column) {
        return cells.get(column);
    }

    Problem fault(Finding finding, String column) {
        return Problem.of(finding, source, "").about(List.of(mapping.field(column))).with(Fact.TEXT, text(column)).with(Fact.FORMAT, mapping.format(column));
    }

    String required(String column) throws Fault {
        String value = text(column);
        if (value == null) {
            throw new Fault(fault(Finding.ROW_LACKS, column));
        }
        return value;
    }

    BigDecimal number(String column, boolean positive) throws Fault {
        String value = text(column);
        if (value == null) {
            return null;
        }
        // A comma or a dot before three digits could part thousands as well: it is not guessed at.
        if (value.matches("[1-9]\\d{0,2}\\.\\d{3}")) {
            throw new Fault(fault(Finding.ROW_NUMBER_GROUPED, column));
        }
        String plain = value.matches("\\d+,(\\d{1,2}|\\d{4,6})") ? value.replace(',', '.') : value;
        if (plain.matches("-\\d{1,15}([.,]\\d{1,6})?") || positive && plain.matches("0{1,15}(\\.0{1,6})?")) {
            throw new Fault(fault(positive ? Finding.ROW_NUMBER_NOT_ABOVE_ZERO : Finding.ROW_NUMBER_NEGATIVE, column));
        }
        if (!plain.matches("\\d{1,15}(\\.\\d{1,6})?")) {
            throw new Fault(fault(commasPartCells ? Finding.ROW_NUMBER_INVALID : Finding.ROW_COMMA_NUMBER_INVALID, column));
        }
        return new BigDecimal(plain);
    }

    BigDecimal numberUpTo(String column, BigDecimal most) throws Fault {
        BigDecimal number = number(column, false);
        if (number != null && number.compareTo(most) > 0) {
            throw new Fault(fault(Finding.ROW_NUMBER_LARGE, column).with(Fact.TEXT, number.toPlainString()).with(Fact.MOST, most.toPlainString()));
        }
        return number;
    }

    BigDecimal requiredNumber(String column) throws Fault {
        required(column);
        number(column, true);
        return numberUpTo(column, MOST);
    }

    LocalDate date(String column) {
        String value = text(column);
        try {
            return value == null ? null : LocalDate.parse(value);
        } catch (DateTimeParseException e) {
            problems.add(fault(Finding.TABLE_DATE_INVALID, column));
            return null;
        }
    }

    /** Up to the as-of date, where there is one. */
    LocalDate serviceDate(String column, LocalDate last) {
        return date(column, last, Finding.TABLE_DATE_OF_SERVICE);
    }

    /** One that may lie ahead. */
    LocalDate dateOfMachine(String column, LocalDate farthest) {
        return date(column, farthest, Finding.TABLE_DATE_OF_MACHINE);
    }

    private LocalDate date(String column, LocalDate last, Finding otherwise) {
        LocalDate date = date(column);
        if (date == null || !date.isBefore(Fields.FIRST_IN_SERVICE) && (last == null || !date.isAfter(last))) {
            return date;
        }
        problems.add(fault(otherwise, column).with(Fact.LEAST, Fields.FIRST_IN_SERVICE).with(Fact.UNTIL, last));
        return null;
    }
}
