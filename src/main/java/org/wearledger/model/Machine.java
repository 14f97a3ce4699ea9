package org.wearledger.model;

import java.io.Serializable;
import java.time.LocalDate;

/** The machine as a report names it. All but {@code id} may be {@code null}: not reported. */
public record Machine(String id, String assetTag, String site, String costCentre, String model, Long memoryBytes,
                      Long swapUsedBytes, LocalDate inServiceOn) implements Serializable {
}
