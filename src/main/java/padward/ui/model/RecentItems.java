package padward.ui.model;

import java.util.List;
import javafx.collections.FXCollections;
import javafx.collections.ObservableList;

/** The last few items of a kind, each once, the latest first. */
public final class RecentItems {
    private final int most;
    private final ObservableList<String> items = FXCollections.observableArrayList();

    /** A field, because the view gets changes only while something references it. */
    private final ObservableList<String> view = FXCollections.unmodifiableObservableList(items);

    RecentItems(int most) {
        this.most = most;
    }

    /** The latest first. */
    public ObservableList<String> items() {
        return view;
    }

    /** Puts one first. */
    void add(String item) {
        if (!items.isEmpty() && items.get(0).equals(item)) {
            return;
        }
        items.remove(item);
        items.add(0, item);
        if (items.size() > most) {
            items.remove(most, items.size());
        }
    }

    /** Removes one. */
    public void forget(String item) {
        items.remove(item);
    }

    /** Replaces all. */
    void set(List<String> others) {
        items.setAll(others.stream().distinct().limit(most).toList());
    }
}
