package org.wearledger.cli;

import java.time.LocalDate;
import java.util.Locale;
import java.util.function.BiFunction;
import org.wearledger.model.MachineStory;
import org.wearledger.report.CustomerPage;
import org.wearledger.report.ExplainPage;

/** For whom a machine's page is. */
enum PageReader {
    USER(ExplainPage::of), CUSTOMER(CustomerPage::of);

    private final BiFunction<MachineStory, LocalDate, String> page;

    PageReader(BiFunction<MachineStory, LocalDate, String> page) {
        this.page = page;
    }

    String page(MachineStory story, LocalDate issuedOn) {
        return page.apply(story, issuedOn);
    }

    @Override
    public String toString() {
        return name().toLowerCase(Locale.ROOT);
    }
}
