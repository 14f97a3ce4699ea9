package org.wearledger.report;

import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.Date;
import java.util.Optional;
import org.apache.poi.ooxml.POIXMLProperties;
import org.apache.poi.xssf.streaming.SXSSFWorkbook;

/** Title, author and day of a workbook. No clock: the same result carries the same properties. */
final class WorkbookProperties {
    private WorkbookProperties() {
    }

    /** @param day {@code null} for none */
    static void set(SXSSFWorkbook workbook, String title, String version, LocalDate day) {
        POIXMLProperties.CoreProperties core = workbook.getXSSFWorkbook().getProperties().getCoreProperties();
        core.setTitle(title);
        core.setCreator("Wearledger " + version);
        Optional<Date> created = Optional.ofNullable(day).map(on -> Date.from(on.atStartOfDay(ZoneOffset.UTC).toInstant()));
        core.setCreated(created);
        core.setModified(created);
    }
}
