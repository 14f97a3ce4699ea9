package org.wearledger.report;

import static j2html.TagCreator.*;

import j2html.tags.DomContent;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jfree.chart.axis.NumberAxis;
import org.jfree.chart.plot.ValueMarker;
import org.jfree.chart.plot.XYPlot;
import org.jfree.chart.renderer.xy.XYLineAndShapeRenderer;
import org.jfree.chart.ui.RectangleAnchor;
import org.jfree.chart.ui.TextAnchor;
import org.jfree.data.xy.XYSeries;
import org.jfree.data.xy.XYSeriesCollection;
import org.wearledger.model.Health;
import org.wearledger.model.HistoryPoint;
import org.wearledger.model.MachineStory.DriveStory;
import org.wearledger.model.WarningSign.Kind;
import org.wearledger.model.WarningSign;

/** Why a drive is urgent, as its reports show it: errors and spare over time, and the columns for them in the table of readings. */
final class SignSection {
    /** A column of the table of readings. */
    record Readings(String heading, Function<Health, Object> value) {
        String cell(HistoryPoint point) {
            return Objects.toString(value.apply(point.reading().health()), "not reported");
        }
    }

    private static final int HEIGHT = 280;
    private static final String NO_WARNING = "none";
    private static final Readings ERRORS = new Readings("Media errors", Health::mediaAndDataIntegrityErrors);
    private static final Readings SPARE = new Readings("Spare (%)", Health::availableSparePercent);
    private static final Readings WARNINGS = new Readings("Warnings", SignSection::warnings);

    private SignSection() {
    }

    /** Those that show why; none for a drive that is not urgent. */
    static List<Readings> columns(List<WarningSign> signs) {
        List<Readings> columns = new ArrayList<>();
        signs.stream().map(sign -> columnOf(sign.kind())).distinct().forEach(columns::add);
        return columns;
    }

    private static Readings columnOf(Kind kind) {
        return switch (kind) {
            case READ_ONLY, RELIABILITY_DEGRADED, SPARE_BELOW_THRESHOLD -> WARNINGS;
            case SPARE_AT_THRESHOLD -> SPARE;
            case MEDIA_ERRORS_ROSE -> ERRORS;
        };
    }

    /** Of the critical warning's bits those that make a drive urgent. */
    private static String warnings(Health health) {
        String words = Stream.of(health.mediaReadOnly() ? "read-only" : null, health.reliabilityDegraded() ? "degraded" : null, health.spareBelowThreshold() ? "spare" : null)
            .filter(Objects::nonNull).collect(Collectors.joining(", "));
        return health.criticalWarning() == null ? null : words.isEmpty() ? NO_WARNING : words;
    }

    /** A picture for each sign that has figures. */
    static List<DomContent> pictures(DriveStory story, LocalDate asOf) {
        return story.drive().signs().stream().map(sign -> picture(sign, story, asOf)).filter(Objects::nonNull).toList();
    }

    private static DomContent picture(WarningSign sign, DriveStory story, LocalDate asOf) {
        return switch (sign.kind()) {
            case READ_ONLY, RELIABILITY_DEGRADED, SPARE_BELOW_THRESHOLD -> null;
            case SPARE_AT_THRESHOLD -> picture("Spare blocks left, with the drive's own limit of " + sign.to() + " % dashed.", "spare blocks (%)",
                series("spare blocks", SPARE, story), 110, (double) sign.to(), asOf);
            case MEDIA_ERRORS_ROSE -> {
                XYSeries errors = series("media errors", ERRORS, story);
                yield picture("Errors in reading or keeping data that the drive could not correct, counted since it was new.", "media errors", errors, 1.15 * errors.getMaxY(), null, asOf);
            }
        };
    }

    /** Since when an urgent drive warns, upright in its picture. */
    static void markWarning(DriveStory story, XYPlot plot) {
        if (columns(story.drive().signs()).contains(WARNINGS)) {
            story.history().points().stream().map(HistoryPoint::reading).filter(reading -> warnings(reading.health()) != null && !warnings(reading.health()).equals(NO_WARNING)).findFirst().ifPresent(reading -> {
                ValueMarker marker = SvgCharts.marker(reading.collectedAt().toEpochMilli(), warnings(reading.health()), SvgCharts.SOLID);
                marker.setLabelAnchor(RectangleAnchor.LEFT);
                marker.setLabelTextAnchor(TextAnchor.CENTER_RIGHT);
                plot.addDomainMarker(marker);
            });
        }
    }

    private static XYSeries series(String name, Readings column, DriveStory story) {
        XYSeries series = new XYSeries(name);
        story.history().points().forEach(point -> {
            if (column.value.apply(point.reading().health()) instanceof Number number) {
                series.add(point.reading().collectedAt().toEpochMilli(), number);
            }
        });
        return series;
    }

    private static DomContent picture(String caption, String axis, XYSeries series, double top, Double limit, LocalDate asOf) {
        NumberAxis values = SvgCharts.axis(axis, top);
        values.setStandardTickUnits(NumberAxis.createIntegerTickUnits());
        XYPlot plot = SvgCharts.overTime(values, asOf);
        XYSeriesCollection all = new XYSeriesCollection();
        XYLineAndShapeRenderer lines = new XYLineAndShapeRenderer(true, true);
        SvgCharts.add(all, lines, series, SvgCharts.SOLID, SvgCharts.DOT, true);
        plot.setDataset(all);
        plot.setRenderer(lines);
        if (limit != null) {
            plot.addRangeMarker(SvgCharts.marker(limit, "the drive's own limit", SvgCharts.DASHED));
        }
        return figure(rawHtml(SvgCharts.svg(plot, HEIGHT, caption + " The figures stand in the table of readings.")), figcaption(caption + " Dotted line: " + asOf + ", the date of this sweep."));
    }
}
