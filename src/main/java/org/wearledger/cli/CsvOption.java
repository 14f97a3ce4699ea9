package org.wearledger.cli;

import org.wearledger.report.CsvForm;
import picocli.CommandLine.Option;

/** How the tables of an output folder are written. */
final class CsvOption {
    /** As a user writes it. */
    enum Form { comma, semicolon }

    @Option(names = "--csv", defaultValue = "comma", paramLabel = "FORM", description = "How CSV tables are written: comma, for programs; semicolon, with decimal comma and byte order mark, "
        + "for spreadsheets that expect them (default: ${DEFAULT-VALUE}).")
    private Form form;

    CsvForm form() {
        return form == Form.semicolon ? CsvForm.SEMICOLON : CsvForm.COMMA;
    }
}
