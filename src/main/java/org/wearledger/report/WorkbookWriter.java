package org.wearledger.report;

import java.io.IOException;
import java.io.OutputStream;
import java.util.List;
import java.util.Locale;
import java.util.stream.IntStream;
import org.apache.poi.ss.usermodel.SheetVisibility;
import org.apache.poi.xssf.streaming.SXSSFWorkbook;
import org.wearledger.model.RepairSummary;
import org.wearledger.model.SweepResult;

/** The sweep as one workbook with typed cells: the sheets that people read, then hidden ones to look things up. */
final class WorkbookWriter {
    /** Of a sheet, with room for its heading and a line above it: the file format has 1,048,576 rows. */
    static final int MOST_DATA_ROWS = 1_048_574;

    private static final int ROWS_IN_MEMORY = 100;
    private static final String CHART_FIGURES = "Chart figures";

    private final SweepResult result;
    private final RowLimit limit;
    private final SXSSFWorkbook workbook;
    private final Styles styles;
    private final boolean isOfAChain;
    /** {@code null} without a budget, and where a chain has nothing to buy for machines of its own. */
    private final MoneySheets money;

    private WorkbookWriter(SweepResult result, int mostRows, SXSSFWorkbook workbook) {
        this.result = result;
        this.limit = new RowLimit(mostRows);
        this.workbook = workbook;
        this.styles = new Styles(workbook, "Wear sweep" + (result.asOf() == null ? "" : ", as of " + result.asOf()));
        this.isOfAChain = CustomersSummary.isOfAChain(result);
        this.money = result.plan().budget() == null || isOfAChain && result.plan().budget().lines().isEmpty() ? null : new MoneySheets(result, workbook, styles);
    }

    /**
     * @param mostRows of each sheet of facts, 1 or more; the sheets that amounts are worked out from hold all
     * @throws OutputRefusedException when the plan has more lines than a sheet has rows
     */
    static void write(SweepResult result, OutputStream out, int mostRows) throws IOException {
        if (result.plan().budget() != null && result.plan().budget().lines().size() > MOST_DATA_ROWS) {
            throw new OutputRefusedException(String.format(Locale.ROOT, "the plan has %,d replacements, and a sheet of the workbook holds %,d: sweep the sites apart, or plan fewer --budget-quarters",
                result.plan().budget().lines().size(), MOST_DATA_ROWS));
        }
        try (SXSSFWorkbook workbook = new LargeWorkbook(ROWS_IN_MEMORY)) {
            new WorkbookWriter(result, Math.min(mostRows, MOST_DATA_ROWS), workbook).fill();
            workbook.write(out);
        }
    }

    private void fill() {
        WorkbookProperties.set(workbook, "Wear sweep", result.version(), result.asOf());
        SheetWriter summary = sheet(SummarySheet.NAME);
        BarCharts charts = new BarCharts(workbook, CHART_FIGURES, styles);
        FleetPictures pictures = new FleetPictures(result, charts);
        ToDoSheet toDo = new ToDoSheet(result, limit, money);
        MachinesSheet machines = new MachinesSheet(result, limit, isOfAChain);
        boolean plans = !result.isOfCustomersAlone() && !(isOfAChain && toDo.isEmpty());
        if (plans) {
            toDo.write(sheet(ToDoSheet.NAME), machines.machines()::contains);
        }
        if (money != null) {
            money.write(charts);
        }
        machines.write(sheet(MachinesSheet.NAME), plans ? toDo.machines()::contains : machine -> false);
        new ModelsSheet(result, limit, sheet(ModelsSheet.NAME), pictures).write();
        repairs();
        new QualitySheet(result, limit, sheet(QualitySheet.NAME)).write();
        int shown = workbook.getNumberOfSheets() - 1;
        appendix();
        workbook.setSheetOrder(CHART_FIGURES, workbook.getNumberOfSheets() - 1);
        List<String> hidden = IntStream.range(shown, workbook.getNumberOfSheets()).mapToObj(workbook::getSheetName).toList();
        new SummarySheet(result, money, isOfAChain, summary).write(pictures, hidden);
        hidden.forEach(name -> workbook.setSheetVisibility(workbook.getSheetIndex(name), SheetVisibility.HIDDEN));
        workbook.setActiveSheet(0);
    }

    /** What few people look up. Formulas read some of it: hidden, they still do. */
    private void appendix() {
        if (money != null) {
            money.writeAppendix();
        }
        if (!result.customersMachines().isEmpty()) {
            sheet("Customers").dataSheet(CustomerCounts.table(result), row -> false);
        }
        if (!result.fleet().repairs().failures().incidences().isEmpty()) {
            sheet("Failures").dataSheet(FailureTable.of(result), incidence -> false);
        }
        SheetWriter method = sheet("Method and assumptions");
        method.columnWidths(38, 110);
        method.line(true, "Topic", "What it means");
        MethodNotes.of(result).forEach(note -> method.line(false, note.topic(), note.text()));
    }

    private SheetWriter sheet(String name) {
        return new SheetWriter(workbook.createSheet(name), styles);
    }

    private void repairs() {
        RepairSummary repairs = result.fleet().repairs();
        if (repairs.isEmpty()) {
            return;
        }
        SheetWriter sheet = sheet("Repairs");
        sheet.printUpright();
        if (repairs.deadDrives().dead() > 0) {
            sheet.note(Wording.sentenceCase(RepairTables.worn(repairs.deadDrives())) + ".");
        }
        RepairTables.repairsInParts(result).forEach(part -> {
            sheet.gap();
            sheet.table(part, count -> false);
        });
        SheetWriter stock = sheet("Stock");
        stock.printUpright();
        stock.note(RepairTables.RULE_OF_STOCK + ".");
        stock.dataSheet(RepairTables.stock(result), need -> false);
    }
}
