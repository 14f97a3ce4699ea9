package org.wearledger.model;

import java.io.Serializable;
import java.util.List;

/**
 * This sweep against an earlier one.
 *
 * @param with what it is compared with, for the reader
 */
public record Comparison(String with, List<Change> changes) implements Serializable {
    public Comparison {
        changes = List.copyOf(changes);
    }
}
