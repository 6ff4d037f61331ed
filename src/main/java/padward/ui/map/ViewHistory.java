package padward.ui.map;

import java.util.ArrayDeque;
import java.util.Deque;
import padward.ui.draw.Viewport;

/** The part of the map that is shown, and the earlier views to go back to. */
final class ViewHistory {
    private static final int MOST_PLACES = 50;

    private final Deque<Viewport> before = new ArrayDeque<>();
    private final Deque<Viewport> ahead = new ArrayDeque<>();
    private Viewport view = new Viewport(1, 1, 0, 0, 40);

    Viewport view() {
        return view;
    }

    /** Changes the view without remembering the old one: for a step or a turn of the wheel. */
    void look(Viewport next) {
        view = next;
    }

    /** Changes the view and remembers the old one. */
    void jump(Viewport next) {
        if (!next.equals(view)) {
            before.push(view);
            while (before.size() > MOST_PLACES) {
                before.removeLast();
            }
            ahead.clear();
        }
        view = next;
    }

    /** Goes back to the view before the last jump. */
    void back() {
        if (!before.isEmpty()) {
            ahead.push(view);
            view = before.pop().resized(view.width(), view.height());
        }
    }

    /** Goes forward again. */
    void forward() {
        if (!ahead.isEmpty()) {
            before.push(view);
            view = ahead.pop().resized(view.width(), view.height());
        }
    }

    /** Forgets all earlier views, as for another fabric. */
    void forget() {
        before.clear();
        ahead.clear();
    }
}
