package padward.api;

import padward.design.Design;

/** A design as if something were removed; it can be asked, but neither kept nor written. */
public final class WhatIfDesign extends AskableDesign {
    WhatIfDesign(Design design) {
        super(design);
    }
}
