package org.wearledger.model;

import java.io.Serializable;
import java.util.Locale;

/**
 * What was decided about one line of the plan.
 *
 * @param deferredTo label of a fiscal quarter, of what is deferred; else {@code null}
 * @param reason in the words of whoever decided; may be {@code null}
 */
public record LineDecision(Choice choice, String deferredTo, String reason) implements Serializable {
    /** What stands until somebody decides. */
    public static final LineDecision ACCEPTED = new LineDecision(Choice.ACCEPT, null, null);

    /** Those that a line can have. */
    public enum Choice {
        /** Bought in the quarter of need. */
        ACCEPT,
        /** Bought in a later quarter. */
        DEFER,
        /** Not bought. */
        REJECT,
        /** Ordered or here already: no more to be asked for. */
        BOUGHT;

        /** The word of the workbook's list, such as {@code accept}. */
        public String label() {
            return name().toLowerCase(Locale.ROOT);
        }
    }
}
