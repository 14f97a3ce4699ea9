package org.wearledger.intake;

import java.io.Serializable;
import java.util.List;
import org.wearledger.model.Problem;
import org.wearledger.model.SourcePlace;

/**
 * What a side table holds.
 *
 * @param values of the rows that are used
 * @param places of those rows, in the order of the values
 * @param rows found below the header, counted apart from what became of them
 */
public record SideTable<T extends Serializable>(List<T> values, List<SourcePlace> places, List<Problem> problems, long rows) {
    public SideTable {
        values = List.copyOf(values);
        places = List.copyOf(places);
        problems = List.copyOf(problems);
    }

    /** Where there is no such table. */
    public static <T extends Serializable> SideTable<T> none() {
        return new SideTable<>(List.of(), List.of(), List.of(), 0);
    }
}
