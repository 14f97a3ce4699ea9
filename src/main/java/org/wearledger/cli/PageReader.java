package org.wearledger.cli;

import java.util.Locale;
import java.util.function.Function;
import org.wearledger.model.MachineStory;
import org.wearledger.report.CustomerPage;
import org.wearledger.report.ExplainPage;

/** For whom a machine's page is. */
enum PageReader {
    USER(ExplainPage::of), CUSTOMER(CustomerPage::of);

    private final Function<MachineStory, String> page;

    PageReader(Function<MachineStory, String> page) {
        this.page = page;
    }

    String page(MachineStory story) {
        return page.apply(story);
    }

    @Override
    public String toString() {
        return name().toLowerCase(Locale.ROOT);
    }
}
