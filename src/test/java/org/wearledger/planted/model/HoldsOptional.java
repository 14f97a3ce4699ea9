package org.wearledger.planted.model;

import java.io.Serializable;
import java.util.Optional;
import java.util.OptionalInt;

/** Optional is not Serializable. */
record HoldsOptional(Optional<String> maybe, OptionalInt count) implements Serializable {
}
