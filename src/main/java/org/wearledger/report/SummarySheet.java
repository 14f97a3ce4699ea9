package org.wearledger.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.wearledger.model.Accounting;
import org.wearledger.model.MachineAssessment;
import org.wearledger.model.Standing;
import org.wearledger.model.SweepResult;

/** The workbook's first sheet, one page in print: how machines stand, the money, what to do first and how the fleet wears; of a chain its answers. */
final class SummarySheet {
    static final String NAME = "Summary";
    private static final int[] WIDTHS = {18, 15, 13, 34, 34, 12, 13};
    private static final List<String> WORK = List.of("machineId", "site", "standing", "why", "what", "byOn", "amount");
    private static final int MACHINES_LISTED = 10;
    private static final int CHART_ROWS = 13;
    /** Where the wide texts, the amounts' labels and the amounts begin. */
    private static final int TEXT = 3;
    private static final int LABEL = 4;
    private static final int AMOUNT = 6;

    private final SweepResult result;
    private final List<SummaryAmount> amounts;
    private final MoneySheets money;
    private final boolean isOfAChain;
    private final SheetWriter sheet;

    /**
     * @param money {@code null} without sheets of money
     */
    SummarySheet(SweepResult result, MoneySheets money, boolean isOfAChain, SheetWriter sheet) {
        this.result = result;
        this.money = money;
        amounts = money == null ? List.of() : money.onSummary();
        this.isOfAChain = isOfAChain;
        this.sheet = sheet;
    }

    /** @param hidden names of the sheets that are not shown */
    void write(FleetPictures pictures, List<String> hidden) {
        sheet.columnWidths(WIDTHS);
        sheet.printOnOnePage();
        sheet.above("Wear sweep" + (result.asOf() == null ? ": no reading kept" : ", as of " + result.asOf()));
        warnings();
        sheet.gap();
        if (isOfAChain) {
            answers();
        }
        standings();
        if (!isOfAChain) {
            work();
            pictures.trend(spot(0, TEXT + 1), spot(TEXT + 1, WIDTHS.length - TEXT - 1));
            sheet.moveTo(sheet.row() + CHART_ROWS + 1);
        }
        sheet.gap();
        quality(result.accounting());
        sheet.note("Hidden sheets: right-click a tab and choose Unhide. " + String.join(", ", hidden) + ".");
        // Tables widen columns; one page holds these.
        sheet.columnWidths(WIDTHS);
    }

    private BarCharts.Spot spot(int column, int columns) {
        return new BarCharts.Spot(NAME, column, sheet.row() + 1, columns, CHART_ROWS);
    }

    /** What to settle before anything below is acted on. */
    private void warnings() {
        InputGaps.missingColumnSentences(result.problems()).forEach(line -> wide("Columns missing", line));
        InDoubtSentence doubt = new InDoubtSentence(result);
        if (doubt.count() > 0) {
            wide("Drives in doubt: " + doubt.count(), doubt.sentence());
        }
    }

    private void answers() {
        sheet.above(CustomersSummary.HEADING);
        CustomersSummary.answers(result).forEach(note -> wide(note.topic(), note.text()));
        sheet.gap();
    }

    private void wide(String topic, String text) {
        sheet.wide(topic, Wording.sentenceCase(text), TEXT, WIDTHS.length - 1);
    }

    /** Beside them the money. */
    private void standings() {
        List<MachineAssessment> counted = SummaryText.counted(result);
        List<Map.Entry<Standing, Long>> standings = new ArrayList<>(Overview.byStanding(counted).entrySet());
        sheet.cells(true, "Standing", "Machines", null, null, amounts.isEmpty() ? null : "Money" + currency());
        for (int i = 0; i < standings.size(); i++) {
            SummaryAmount amount = i < amounts.size() ? amounts.get(i) : null;
            Standing standing = standings.get(i).getKey();
            sheet.cells(false, standing.label(), standings.get(i).getValue());
            if (amount != null) {
                sheet.beside(LABEL, amount.isTheAsk(), amount.label());
                sheet.beside(AMOUNT, amount.isTheAsk(), amount.amount());
            }
        }
        sheet.cells(false, SummaryText.all(result), (long) counted.size());
        if (money != null && money.toCheck() != null) {
            sheet.above(money.toCheck());
        }
        if (isOfAChain && amounts.isEmpty() && result.plan().budget() != null) {
            wide("Own machines", "nothing is to be bought for them: their budget is in " + SweepWriter.BUDGET_CSV + " alone");
        }
    }

    private String currency() {
        String currency = result.plan().budget().currency();
        return currency.isEmpty() ? ", no prices" : " (" + currency + ")";
    }

    private void work() {
        Table<WorkRow> work = money == null ? CareTables.work(result) : money.following(CareTables.work(result));
        if (!work.rows().isEmpty()) {
            sheet.gap();
            sheet.table(work.showing(WORK).firstRows(MACHINES_LISTED).named("To do first"), row -> false);
            if (work.rows().size() > MACHINES_LISTED) {
                sheet.cells(false, new Formula("HYPERLINK(\"#'" + ToDoSheet.NAME + "'!A1\",\"and " + (work.rows().size() - MACHINES_LISTED) + " more on the sheet " + ToDoSheet.NAME + "\")",
                    "and " + (work.rows().size() - MACHINES_LISTED) + " more on the sheet " + ToDoSheet.NAME, CellType.LINK));
            }
        }
    }

    private void quality(Accounting sums) {
        long silent = result.ownMachines().stream().filter(machine -> !machine.reportedThisSweep()).count();
        sheet.note(sums.readingsKept() + " of " + sums.readingsIn() + " readings used, " + sums.readingsSetAside() + " ignored; " + Wording.count(silent, "machine") + " did not report. See the sheet "
            + QualitySheet.NAME + ".");
    }
}
