package org.wearledger.report;

import java.util.List;
import java.util.stream.Collectors;
import org.wearledger.model.Accounting;
import org.wearledger.model.BudgetPeriod;
import org.wearledger.model.MachineAssessment;
import org.wearledger.model.Problem;
import org.wearledger.model.SweepResult;

/** The workbook's first sheet: of a chain its answers, of all what was found and used, how machines stand, and the ask. */
final class SummarySheet {
    private static final int NAMES_LISTED = 12;

    private final SweepResult result;
    /** {@code null} without one to show. */
    private final BudgetTables budget;
    private final boolean isOfAChain;
    private final SheetWriter sheet;

    SummarySheet(SweepResult result, BudgetTables budget, boolean isOfAChain, SheetWriter sheet) {
        this.result = result;
        this.budget = budget;
        this.isOfAChain = isOfAChain;
        this.sheet = sheet;
    }

    void write() {
        sheet.columnWidths(46, 14, 90);
        sheet.line(true, "Wear sweep");
        sheet.line(false, "As of", result.asOf() == null ? "no reading kept" : result.asOf());
        if (isOfAChain) {
            sheet.gap();
            sheet.line(true, CustomersSummary.HEADING);
            CustomersSummary.answers(result).forEach(note -> sheet.line(false, note.topic(), null, note.text()));
            if (budget == null && result.plan().budget() != null) {
                sheet.line(false, "Own machines", null, "nothing is to be bought for them: their budget is in " + SweepWriter.BUDGET_CSV + " alone");
            }
        }
        warnings();
        sheet.gap();
        sheet.line(true, "Standing", "Machines", "Next step");
        List<MachineAssessment> counted = SummaryText.counted(result);
        SummaryText.byStanding(counted).forEach((standing, count) ->
            sheet.line(WorkbookWriter.isPressing(standing), standing.label(), count, isOfAChain ? standing.nextStepForCustomer() : standing.nextStep()));
        sheet.line(false, SummaryText.all(result), counted.size());
        if (!result.isOfCustomersAlone()) {
            notReported();
        }
        sheet.line(false, "Drives with an assumed rating", MachineRow.of(result.machines()).stream()
                .filter(row -> row.drive() != null && row.drive().wear().endurance() != null
                    && row.drive().wear().endurance().assumed()).count(),
            "assumed: 0.6 TB written per GB of capacity, common practice, no source");
        budgetSummary();
        found();
        sheet.gap();
        sheet.line(true, "Data quality: rule", "Problems", "Meaning");
        SummaryText.problemsByRule(result).forEach((kind, count) ->
            sheet.line(false, kind.id(), count, FactWords.meaning(kind)));
        sheet.line(false, "All problems", Problem.count(result.problems()));
    }

    private void notReported() {
        List<String> silent = result.ownMachines().stream().filter(machine -> !machine.reportedThisSweep()).map(machine -> machine.machine().id()).toList();
        sheet.line(false, "Not reported this sweep", (long) silent.size(), silent.isEmpty() ? "none"
            : silent.stream().limit(NAMES_LISTED).collect(Collectors.joining(", ")) + "; Machines sheet, column \"Reported this sweep\"");
    }

    /** What to settle before anything below is acted on. */
    private void warnings() {
        InputGaps.missingColumnSentences(result.problems()).forEach(line -> sheet.line(true, "Columns missing", "", Wording.sentenceCase(line)));
        InDoubtSentence doubt = new InDoubtSentence(result);
        if (doubt.count() > 0) {
            sheet.line(true, "Drives in doubt", doubt.count(), Wording.sentenceCase(doubt.sentence()));
        }
    }

    private void found() {
        sheet.gap();
        sheet.line(true, "Found and used", "Count", "Sum");
        Accounting sums = result.accounting();
        var words = SummaryText.sums(sums);
        sheet.line(false, "Files found", sums.filesFound(), words.get(0));
        sheet.line(false, "Records found", sums.recordsFound(), words.get(1));
        sheet.line(false, "Readings", sums.readingsIn(), words.get(2));
        sheet.line(false, "Files passed over (no reports)", sums.filesPassedOver());
        sheet.line(false, "Side tables", sums.sideTables());
        sheet.line(false, "Rows of side tables", sums.rowsFound(), words.get(3));
    }

    /** The ask, as formulas of the sheet "Budget". */
    private void budgetSummary() {
        if (budget == null) {
            return;
        }
        String unit = result.plan().budget().currency().isEmpty() ? "No prices" : result.plan().budget().currency();
        BudgetText words = new BudgetText(result);
        Table<BudgetPeriod> table = budget.periodsOnTheSheet();
        sheet.gap();
        sheet.line(true, "Budget of the next quarters", unit, "Named items");
        for (BudgetPeriod quarter : words.nextQuarters()) {
            String name = Wording.sentenceCase(words.nameOf(quarter));
            sheet.line(true, name + ": to ask for", amount(table, "toAskFor", quarter), new NamedReplacementsText(result.plan().budget()).of(quarter));
            sheet.line(false, name + ": the same, as swept", quarter.toAskFor(), typedSince(table, quarter));
            sheet.line(false, name + ": cost of named replacements", amount(table, "namedAmount", quarter), "those items; the plan may be more");
            sheet.line(false, name + ": plan", amount(table, "plan", quarter), "the cost of named replacements, or the P50 where that is more");
            sheet.line(false, name + ": contingency and allowance", beyondThePlan(table, quarter), "what to ask for beyond the plan; sheet Budget has the parts");
        }
        if (budget.aboveMoney() != null) {
            sheet.gap();
            sheet.line(true, budget.aboveMoney());
        }
        for (BudgetPeriod year : words.years()) {
            sheet.gap();
            sheet.line(true, "Budget of " + words.nameOfSum(year) + ", " + year.from() + " to " + year.until(), unit,
                words.lackingPrices().isEmpty() ? "What it is" : "AT LEAST: no price for " + String.join(", ", words.lackingPrices()));
            BudgetText.MONEY.forEach(column -> sheet.line(column.name().equals("toAskFor"), column(table, column.name()).heading(), amount(table, column.name(), year), column.meaning()));
        }
        sheet.gap();
        sheet.line(true, "To know with the amounts");
        words.notes().forEach(note -> sheet.line(false, note.topic(), null, note.text()));
    }

    private static Column<BudgetPeriod> column(Table<BudgetPeriod> table, String name) {
        return table.columns().stream().filter(column -> column.name().equals(name)).findFirst().orElseThrow();
    }

    /** The cell of the sheet "Budget". */
    private Formula amount(Table<BudgetPeriod> table, String name, BudgetPeriod period) {
        return new Formula("'" + table.name() + "'!" + table.letter(name) + (budget.firstRowOfMoney() + result.plan().budget().quarters().indexOf(period)),
            column(table, name).valueOf(period), CellType.MONEY);
    }

    /** Example: {@code what was typed on the sheet Assumptions since changes it by +13.00}. */
    private Formula typedSince(Table<BudgetPeriod> table, BudgetPeriod period) {
        String change = amount(table, "typedSince", period).text();
        String words = "what was typed on the sheet Assumptions since changes it by ";
        return new Formula("\"" + words + "\"&IF(" + change + ">0,\"+\",\"\")&FIXED(" + change + ",2)", words + "0.00", CellType.LONG_TEXT);
    }

    private Formula beyondThePlan(Table<BudgetPeriod> table, BudgetPeriod period) {
        return new Formula(amount(table, "toAskFor", period).text() + "-" + amount(table, "plan", period).text(), period.toAskFor().subtract(period.plan()), CellType.MONEY);
    }
}
