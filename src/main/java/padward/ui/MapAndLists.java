package padward.ui;

import java.util.Optional;
import javafx.scene.Node;
import javafx.scene.control.SplitPane;
import javafx.scene.input.MouseEvent;
import padward.ui.model.AppearanceModel;

/**
 * The map with the strip map on the left, the lists on the right. The lists get their share of the
 * width, and with large text as much as their tabs need, until the user moves the divider.
 */
final class MapAndLists extends SplitPane {
    private static final double MAP_SHARE = 0.62;
    private static final double LEAST_SHARE = 0.5;

    /** Width that fits the titles of all panels side by side at the default text size, pixels. */
    private static final double LISTS = 486;

    private static final double SAME = 1e-3;

    private final AppearanceModel look;
    private final SidePane side;
    private double set = MAP_SHARE;

    /** Whether the share is that of the last session, or the user's. */
    private boolean asLeft;

    MapAndLists(MapAndStrip maps, SidePane side, AppearanceModel look) {
        this.side = side;
        this.look = look;
        getItems().add(maps);
        show(look.listsProperty().get());
        widthProperty().addListener(p -> share());
        look.textSizeProperty().addListener(p -> share());
        addEventFilter(MouseEvent.MOUSE_RELEASED, this::dividerReleased);
        look.listsProperty().addListener((p, old, now) -> show(now));
    }

    /** What wraps is higher the narrower it is: at the widths that both sides have. */
    @Override
    protected double computeMinHeight(double width) {
        double least = super.computeMinHeight(width);
        for (Node part : getItems()) {
            double has = part.getLayoutBounds().getWidth();
            least = Math.max(least, has > 0 ? part.minHeight(has) : 0);
        }
        return least;
    }

    private void show(boolean lists) {
        boolean there = getItems().contains(side);
        if (lists && !there) {
            getItems().add(side);
            setDividerPositions(set);
        } else if (!lists && there) {
            set = getDividerPositions()[0];
            getItems().remove(side);
        }
    }

    /** Gives the map a share of the width, as the user left it. */
    void share(double map) {
        asLeft = true;
        set = map;
        if (!getDividers().isEmpty()) {
            setDividerPositions(map);
        }
    }

    /** The share of the map, if the user moved the divider. */
    Optional<Double> findShare() {
        double now = getDividers().isEmpty() ? set : getDividerPositions()[0];
        return asLeft || Math.abs(now - set) > SAME ? Optional.of(now) : Optional.empty();
    }

    /** Where the user leaves the divider, there it stays. */
    private void dividerReleased(MouseEvent e) {
        boolean onDivider = false;
        Node at = e.getTarget() instanceof Node target ? target : this;
        while (at != null && at != this) {
            onDivider |=
                    at.getStyleClass().contains("split-pane-divider") && at.getParent() == this;
            at = at.getParent();
        }
        if (onDivider && Math.abs(getDividerPositions()[0] - set) > SAME) {
            asLeft = true;
            set = getDividerPositions()[0];
        }
    }

    private void share() {
        if (asLeft && !getDividers().isEmpty()) {
            setDividerPositions(set);
            return;
        }
        boolean moved = getDividers().isEmpty() || Math.abs(getDividerPositions()[0] - set) > SAME;
        if (moved || getWidth() <= 0) {
            return;
        }
        double wanted = 1 - look.sized(LISTS).get() / getWidth();
        set = Math.max(LEAST_SHARE, Math.min(MAP_SHARE, wanted));
        setDividerPositions(set);
    }
}
