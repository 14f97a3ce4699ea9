package org.wearledger.model;

import java.io.Serializable;
import java.util.List;

/**
 * What the drives' latest readings say in the middle of the fleet, for a reader to see whether it can be: a wrong unit shows here
 * at a glance.
 *
 * @param drives with a reading that is kept, or of which none could be believed: those have no figures
 * @param inDoubt of those, whose figures are in doubt
 * @param unchecked of those that report bytes written, that report neither percentage used nor write commands, against which a wrong unit would show
 * @param doubts by rule, that of most drives first
 */
public record FleetGlance(long drives, long inDoubt, long unchecked, List<Doubt> doubts, Middle terabytesWritten, Middle percentageUsed, Middle powerOnHours)
    implements Serializable {

    /**
     * A rule by which drives are in doubt.
     *
     * @param drives one may be doubted by several rules
     * @param questioned the fields whose unit or meaning it puts in question, with their headings and units where mapped
     * @param onlyFile that has the doubted reports of several drives, all of them, where others were read too; else empty
     */
    public record Doubt(ProblemKind rule, long drives, List<MappedField> questioned, String onlyFile) implements Serializable {
        public Doubt {
            questioned = List.copyOf(questioned);
        }
    }

    /**
     * One figure in the middle of the fleet.
     *
     * @param drives that report it
     * @param median of those, {@code null} of none
     */
    public record Middle(long drives, Double median) implements Serializable {
    }

    public FleetGlance {
        doubts = List.copyOf(doubts);
    }
}
