"""The record's schema as migrations, one file a change; run by `kiosk.store.schema`."""
