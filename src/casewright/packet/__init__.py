"""The shop packet and its tables. Sizes are read from the project and plan, never worked out here.

Use from outside: `shop_packet.packet`, `labels.labels.labels_pdf`, and `csv_tables`.
"""
