package padward.clearance;

import java.util.Optional;
import padward.design.Occupant;

/**
 * A resource that every way to the pad passes.
 *
 * @param vertex the vertex; of a site's pins that all ways pass, the first
 * @param resource name of the site or wire or pad
 * @param resourceKind {@code IO register site}, {@code site}, {@code wire}, {@code pad}
 * @param holder who holds it, and so must let it go; empty when nobody does
 */
public record Chokepoint(
        int vertex, String resource, String resourceKind, Optional<Occupant> holder) {
    /** Whether it is held, so that nothing opens a way without freeing it. */
    public boolean mustBeFreed() {
        return holder.isPresent();
    }
}
