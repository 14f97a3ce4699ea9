package org.wearledger.report;

import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.wearledger.model.CentreFunding;
import org.wearledger.model.CostCentre;

/**
 * The sites and cost centres of a fleet, numbered: formulas add up by number, since a spreadsheet's criteria would take signs,
 * wildcards and digits in a name for more than a name.
 */
final class Places {
    static final String NOT_GIVEN = "(not given)";

    private final Map<CostCentre, Integer> numbers = new TreeMap<>();

    Places(List<CentreFunding> centres) {
        centres.forEach(centre -> numbers.computeIfAbsent(centre.centre(), each -> numbers.size() + 1));
    }

    int number(CostCentre centre) {
        return numbers.get(centre);
    }

    static String site(CostCentre centre) {
        return given(centre.site());
    }

    static String name(CostCentre centre) {
        return given(centre.name());
    }

    private static String given(String text) {
        return text == null ? NOT_GIVEN : text;
    }
}
