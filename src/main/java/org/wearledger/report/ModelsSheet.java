package org.wearledger.report;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Predicate;
import org.wearledger.model.ComparedGroup;
import org.wearledger.model.MemoryBand;
import org.wearledger.model.ModelSummary;
import org.wearledger.model.SweepResult;

/** What wears and writes fastest: drive models, machine models, sites and memory sizes below each other, each with its finding and a figure between its low and its high. */
final class ModelsSheet {
    static final String NAME = "Models";
    private static final int IN_VIEW = 7;
    private static final int CHART_ROWS = 16;

    private final SweepResult result;
    private final RowLimit limit;
    private final SheetWriter sheet;
    private final FleetPictures pictures;

    ModelsSheet(SweepResult result, RowLimit limit, SheetWriter sheet, FleetPictures pictures) {
        this.result = result;
        this.limit = limit;
        this.sheet = sheet;
        this.pictures = pictures;
    }

    void write() {
        sheet.printUpright();
        sheet.note("Further columns are folded away: open them by the + above the columns.");
        drives();
        sheet.pageBreak();
        groups("Machine models", ModelTables.machines(result), SweepWriter.MACHINE_MODELS_CSV);
        chart(pictures.machineModels(spot()));
        groups("Sites", ModelTables.sites(result), SweepWriter.SITES_CSV);
        memory();
        sheet.view(IN_VIEW, IN_VIEW);
    }

    private BarCharts.Spot spot() {
        return new BarCharts.Spot(NAME, 0, sheet.row() + 1, IN_VIEW, CHART_ROWS);
    }

    private void chart(boolean isDrawn) {
        if (isDrawn) {
            sheet.moveTo(sheet.row() + CHART_ROWS + 1);
        }
    }

    private void drives() {
        Table<ModelSummary> table = ModelTables.drivesOnSheet(result);
        sheet.gap();
        ComparedNotes.ofDrives(result).forEach(note -> sheet.note(note.topic() + ": " + note.text() + "."));
        write(table, drive -> true, SweepWriter.MODELS_CSV);
        chart(pictures.models(spot()));
    }

    private void groups(String heading, Table<ComparedGroup> table, String csv) {
        if (!table.rows().isEmpty()) {
            sheet.gap();
            sheet.above(heading + ", by what is written per " + ModelTables.measure(table.rows()) + ": 1 is the typical one. " + Wording.sentenceCase(ModelsText.SELECTION) + ".");
            write(ModelTables.onSheet(table), group -> true, csv);
        }
    }

    private void memory() {
        if (result.fleet().memoryBands().isEmpty()) {
            return;
        }
        sheet.gap();
        sheet.above("Memory and writes: little memory may mean swapping, a cause to check");
        List<String> bands = new ArrayList<>(List.of("memory", "machines", "finding", "gigabytesPerDayMedian", "gigabytesPerDayLowerQuartile", "gigabytesPerDayUpperQuartile", "swapUsedGibibytesMedian"));
        Table<MemoryBand> table = Tables.memoryBands(result).with(0, Column.longText("finding", "Finding", band -> finding(band)));
        sheet.table(table.showing(bands), band -> false);
    }

    private String finding(MemoryBand band) {
        return String.join(". ", result.fleet().memoryContrasts().stream().filter(contrast -> contrast.smallerGibibytes() == band.memoryGibibytes()).map(DifferenceWords::of).toList());
    }

    private <T> void write(Table<T> table, Predicate<T> matters, String csv) {
        Table<T> cut = limit.cut(table, matters);
        limit.say(sheet, cut, table.rows().size(), "", csv);
        sheet.table(cut, row -> false);
    }
}
